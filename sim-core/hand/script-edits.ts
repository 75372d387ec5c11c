import type { HandScript, HandStep } from '../drill/hand-script-schema.ts';

export type Move = Extract<HandStep, { do: 'move' }>;

export function withSteps(script: HandScript, steps: HandStep[]): HandScript {
  return { ...script, steps };
}

export function withHabits(script: HandScript, habits: HandScript['habits']): HandScript {
  return { ...script, habits: { ...script.habits, ...habits } };
}

export function eachMove(script: HandScript, change: (step: Move) => HandStep[]): HandScript {
  return withSteps(
    script,
    script.steps.flatMap((step) => (step.do === 'move' ? change(step) : [step])),
  );
}

/** Every step up to the first move is kept, what comes after it too, with something before the move. */
export function beforeFirstMove(script: HandScript, extra: HandStep[]): HandScript {
  const first = script.steps.findIndex((step) => step.do === 'move');
  return withSteps(script, [...script.steps.slice(0, first), ...extra, ...script.steps.slice(first)]);
}

/** The same with only one move, to another place. */
export function endingAt(script: HandScript, to: Move['to']): HandScript {
  const moves = script.steps.filter((step) => step.do === 'move');
  const last = moves.at(-1);
  return withSteps(
    script,
    script.steps.map((step) => (step === last ? { ...step, to } : step)),
  );
}
