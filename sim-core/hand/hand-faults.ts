import type { HandStep } from '../drill/hand-script-schema.ts';
import { pathGeometry } from '../drill/path-geometry.ts';
import type { Drill } from '../drill/schema.ts';
import type { HandFault } from './fault-hands.ts';
import { type HandWindow, speedMmPerS } from './hand-window.ts';
import { beforeFirstMove, eachMove, endingAt, type Move, withHabits, withSteps } from './script-edits.ts';

const always = (): boolean => true;
const isCut = (drill: Drill): boolean => drill.intended.grooveDepthMm === null;
const hasOpenings = (drill: Drill): boolean => drill.plate.openings !== null || drill.plate.cutouts.length > 0;

/** Faults of pace, pause, pose and line, on whatever is cut. */
export const HAND_FAULTS = {
  'too-fast': {
    measure: 'travel-speed',
    fits: always,
    make: (good) => ({ script: eachMove(good, (step) => [{ ...step, speed: { inWindow: 1.3 } }]) }),
  },
  'too-slow': {
    measure: 'travel-speed',
    fits: always,
    make: (good) => ({ script: eachMove(good, (step) => [{ ...step, speed: { timesMiddle: 1 / 3 } }]) }),
  },
  'leaves-early': {
    measure: 'edge-dwell',
    fits: (drill) => drill.start === 'edge',
    // Off at once when the arc takes hold, with no look at the sparks.
    make: (good) => ({
      script: withHabits(
        withSteps(
          good,
          good.steps.map((step) => (step.do === 'wait' && step.for === 'break-through' ? { do: 'wait', for: 'arc' } : step)),
        ),
        { reactionS: 0 },
      ),
    }),
  },
  'leaves-late': {
    measure: 'edge-dwell',
    fits: (drill) => drill.start === 'edge',
    make: (good, drill, window) => {
      const seconds = 2 * (window.edgeDwellS ?? 0) + drill.tolerances.lateStartS + 1.5;
      return { script: beforeFirstMove(good, [{ do: 'wait', for: 'seconds', seconds }]) };
    },
  },
  leaning: {
    measure: 'squareness',
    fits: always,
    make: (good, drill) => {
      const { bevelDeg } = drill.intended;
      const aside = drill.tolerances.leanDeg * 2.5 + 2;
      const workAngleDeg = bevelDeg > 0 ? bevelDeg - aside : bevelDeg + aside;
      return { script: beforeFirstMove(good, [{ do: 'lean', workAngleDeg, overS: 0.3 }]) };
    },
  },
  wandering: {
    measure: 'line-following',
    // A guide does not let the hand wander.
    fits: (drill) => drill.guide.kind === 'freehand',
    make: (good, drill) => ({
      script: withHabits(good, { wander: { amplitudeMm: drill.tolerances.offLineMm * 4, wavelengthMm: 60 } }),
    }),
  },
  'too-high': {
    measure: 'stand-off',
    fits: (drill) => drill.start === 'edge',
    make: (good, drill) => {
      const { low, high } = drill.tolerances.standOffMm;
      const heightMm = high + 2.5 + (high - low) / 10;
      return {
        script: withSteps(
          good,
          good.steps.map((step) => (step.do === 'place' ? { ...step, heightMm } : step)),
        ),
      };
    },
  },
  'stops-short': {
    measure: 'end-of-cut',
    fits: always,
    make: (good, drill) => {
      const { lengthMm } = pathGeometry(drill.path);
      return { script: endingAt(good, { alongMm: lengthMm * 0.88 < lengthMm - 8 ? lengthMm * 0.88 : lengthMm - 8 }) };
    },
  },
  halting: {
    measure: 'steadiness',
    // Over an opening a halt loses the arc, and it is that which tells.
    fits: (drill) => isCut(drill) && !hasOpenings(drill),
    make: (good, drill, window) => {
      const first = good.steps.find((step) => step.do === 'move');
      return { script: eachMove(good, (step) => (step === first ? halts(step, drill, window) : [step])) };
    },
  },
} as const satisfies Record<string, HandFault>;

/** Stops dead at every eighth of the way, for half the time that an eighth takes; how the end is led out is left as it is. */
function halts(move: Move, drill: Drill, window: HandWindow): HandStep[] {
  const { lengthMm } = pathGeometry(drill.path);
  const wayMm = 'alongMm' in move.to ? move.to.alongMm : lengthMm;
  const stop: HandStep = { do: 'wait', for: 'seconds', seconds: wayMm / 8 / speedMmPerS(move.speed, window) / 2 };
  const eighths = [1, 2, 3, 4, 5, 6, 7].map((eighth): Move => ({ ...move, to: { alongMm: (wayMm * eighth) / 8 } }));
  return [...eighths.flatMap((part) => [part, stop]), move];
}
