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

/** Every way that is gone in several moves, with leaning on the way, in one: at the first one's speed to the last one's end. */
export function inOneGo(script: HandScript): HandScript {
  const steps: HandStep[] = [];
  let open: number | null = null;
  for (const step of script.steps) {
    const first = open === null ? undefined : steps[open];
    if (step.do === 'move' && first?.do === 'move') steps[open as number] = { ...first, to: step.to };
    else if (open !== null && step.do === 'lean' && step.meanwhile === true) continue;
    else {
      open = step.do === 'move' ? steps.length : null;
      steps.push(step);
    }
  }
  return withSteps(script, steps);
}

/** In one go to another place. */
export function endingAt(script: HandScript, to: Move['to']): HandScript {
  return eachMove(inOneGo(script), (step) => [{ ...step, to }]);
}
