import type { HandScript, HandStep } from '../drill/hand-script-schema.ts';
import type { MeasureId } from '../drill/measure-ids.ts';
import { pathGeometry } from '../drill/path-geometry.ts';
import type { Drill } from '../drill/schema.ts';
import { type HandWindow, speedMmPerS } from './hand-window.ts';
import { referenceHand } from './reference-hand.ts';

/** Hands that do one thing wrong and all else as the reference hand does, with the measure that should name it. */
export const FAULT_HANDS = {
  'too-fast': 'travel-speed',
  'too-slow': 'travel-speed',
  'leaves-early': 'edge-dwell',
  'leaves-late': 'edge-dwell',
  leaning: 'squareness',
  wandering: 'line-following',
  'too-high': 'stand-off',
  'stops-short': 'end-of-cut',
  halting: 'steadiness',
} as const satisfies Record<string, MeasureId>;

export type FaultHandId = keyof typeof FAULT_HANDS;
export const FAULT_HAND_IDS = Object.keys(FAULT_HANDS) as FaultHandId[];

/** The reference hand with one fault. */
export function faultHand(fault: FaultHandId, drill: Drill, window: HandWindow): HandScript {
  const good = referenceHand(drill, window);
  const { low, high } = drill.tolerances.standOffMm;
  const named = { ...good, name: `Hand with one fault: ${fault}` };
  switch (fault) {
    case 'too-fast':
      return { ...named, steps: eachMove(good, (step) => ({ ...step, speed: { inWindow: 1.3 } })) };
    case 'too-slow':
      return { ...named, steps: eachMove(good, (step) => ({ ...step, speed: { timesMiddle: 1 / 3 } })) };
    case 'leaves-early':
      // Off at once when the arc takes hold, with no look at the sparks.
      return { ...named, habits: { ...good.habits, reactionS: 0 }, steps: withoutPause(good) };
    case 'leaves-late': {
      const late: HandStep = {
        do: 'wait',
        for: 'seconds',
        seconds: 2 * (window.edgeDwellS ?? 0) + drill.tolerances.lateStartS + 1.5,
      };
      return { ...named, steps: insertBeforeMove(good, late) };
    }
    case 'leaning':
      return {
        ...named,
        steps: insertAfterPlace(good, { do: 'lean', workAngleDeg: drill.tolerances.leanDeg * 2.5 + 2, overS: 0.5 }),
      };
    case 'wandering':
      return { ...named, habits: { ...good.habits, wander: { amplitudeMm: drill.tolerances.offLineMm * 4, wavelengthMm: 60 } } };
    case 'too-high':
      return {
        ...named,
        steps: good.steps.map((step) => (step.do === 'place' ? { ...step, heightMm: high + 2.5 + (high - low) / 10 } : step)),
      };
    case 'stops-short':
      return { ...named, steps: eachMove(good, (step) => ({ ...step, to: { alongShare: 0.88 } })) };
    case 'halting':
      return { ...named, steps: good.steps.flatMap((step) => (step.do === 'move' ? halts(step, drill, window) : [step])) };
  }
}

type Move = Extract<HandStep, { do: 'move' }>;

function eachMove(script: HandScript, change: (step: Move) => Move): HandStep[] {
  return script.steps.map((step) => (step.do === 'move' ? change(step) : step));
}

function insertBeforeMove(script: HandScript, extra: HandStep): HandStep[] {
  return script.steps.flatMap((step) => (step.do === 'move' ? [extra, step] : [step]));
}

function insertAfterPlace(script: HandScript, extra: HandStep): HandStep[] {
  return script.steps.flatMap((step) => (step.do === 'place' ? [step, extra] : [step]));
}

function withoutPause(script: HandScript): HandStep[] {
  return script.steps.map((step) => (step.do === 'wait' && step.for === 'break-through' ? { do: 'wait', for: 'arc' } : step));
}

/** Stops dead at every eighth of the way, for half the time that an eighth takes. */
function halts(move: Move, drill: Drill, window: HandWindow): HandStep[] {
  const seconds = pathGeometry(drill.path).lengthMm / 8 / speedMmPerS(move.speed, window) / 2;
  const steps: HandStep[] = [];
  for (let eighth = 1; eighth < 8; eighth++) {
    steps.push({ ...move, to: { alongShare: eighth / 8 } }, { do: 'wait', for: 'seconds', seconds });
  }
  return [...steps, move];
}
