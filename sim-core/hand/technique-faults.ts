import type { HandScript, HandStep } from '../drill/hand-script-schema.ts';
import { partSide } from '../drill/part-side.ts';
import { pathGeometry } from '../drill/path-geometry.ts';
import { pierceAnswer } from '../drill/pierce-answer.ts';
import type { Drill } from '../drill/schema.ts';
import { round } from '../math/elementary.ts';
import type { HandFault } from './fault-hands.ts';
import { cuttingHeightMm } from './reference-hand.ts';
import { beforeFirstMove, eachMove, endingAt, inOneGo, withHabits, withSteps } from './script-edits.ts';

const pierces = (drill: Drill): boolean => drill.start !== 'edge' && drill.intended.grooveDepthMm === null;
const grooves = (drill: Drill): boolean => drill.intended.grooveDepthMm !== null;

/** Height, in mm, of a hand that is far too high for its pierce, and of one that is far too near. */
const FAR_TOO_HIGH_MM = 9;
const FAR_TOO_NEAR_MM = 1.5;

/** A hole that is through within this time cannot be left too early, s. */
const SLOWER_THAN_A_HAND_S = 0.4;

/** From here on the bottom of a front lags so far that a cut has to be led out, mm. */
const THICK_MM = 10;

/** Shots in the air for a hand that would spend the life of a part with them; fewest and most that are fired. */
const SHOTS_PER_LIFE = 1000;
const FEWEST_SHOTS = 12;
const MOST_SHOTS = 100;

/** Faults of one technique each: pierce, finish, bevel, size, groove, parts. */
export const TECHNIQUE_FAULTS = {
  'pierces-upright': {
    measure: 'pierce',
    fits: (drill) => drill.start === 'rolling-pierce',
    // As on thin plate: straight down, and straight into what comes back.
    make: (good) => ({
      script: withSteps(
        good,
        good.steps.filter((step) => step.do !== 'lean'),
      ),
    }),
  },
  'pierces-high': {
    measure: 'pierce',
    fits: (drill) => drill.start === 'contact-pierce' || drill.start === 'rolling-pierce',
    make: (good, drill) => ({ script: atStart(good, FAR_TOO_HIGH_MM, cuttingHeightMm(drill)) }),
  },
  'pierces-near': {
    measure: 'pierce',
    fits: (drill) => drill.start === 'stand-off-pierce',
    make: (good, drill) => ({ script: atStart(good, FAR_TOO_NEAR_MM, cuttingHeightMm(drill)) }),
  },
  'leaves-blind': {
    measure: 'pierce',
    fits: (drill) => pierces(drill) && (pierceAnswer(drill)?.throughS ?? 0) > SLOWER_THAN_A_HAND_S,
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
  'stays-high': {
    measure: 'stand-off',
    fits: pierces,
    // Never comes down to cutting height after the pierce.
    make: (good, drill) => {
      const heightMm = drill.tolerances.standOffMm.high + 3;
      const steps = good.steps.map((step) => (step.do === 'height' ? { ...step, heightMm } : step));
      return { script: withSteps(good, steps) };
    },
  },
  'leaves-tab': {
    measure: 'end-of-cut',
    fits: (drill) => drill.finish === 'close',
    // Lets go as if the outline were closed already.
    make: (good, drill) => ({ script: endingAt(good, { alongMm: pathGeometry(drill.path).lengthMm - 5 }) }),
  },
  'wrong-bevel': {
    measure: 'squareness',
    fits: (drill) => drill.intended.bevelDeg !== 0,
    make: (good) => ({
      script: withSteps(
        good,
        good.steps.map((step) => (step.do === 'lean' ? { ...step, workAngleDeg: 0 } : step)),
      ),
    }),
  },
  'cuts-into-part': {
    measure: 'part-size',
    fits: (drill) => drill.guide.kind === 'freehand',
    make: (good, drill) => {
      const times = drill.finish === 'close' ? 0.5 : 1;
      const bears = partSide(drill, pathGeometry(drill.path)) * 3 * drill.tolerances.sizeMm * times;
      return { script: withHabits(good, { bearsLeftMm: bears }) };
    },
  },
  'gouges-fast': {
    measure: 'groove-depth',
    fits: grooves,
    make: (good) => ({ script: eachMove(good, (step) => [{ ...step, speed: { timesMiddle: 4 } }]) }),
  },
  'gouges-uneven': {
    measure: 'groove-evenness',
    fits: grooves,
    // In jerks: an eighth of the way fast, the next slow.
    make: (good) => ({
      script: eachMove(good, (step) => {
        const jerks: HandStep[] = [0, 1, 2, 3, 4, 5, 6].map((part) => ({
          ...step,
          to: { alongShare: (part + 1) / 8 },
          speed: { timesMiddle: part % 2 === 0 ? 4 : 0.4 },
        }));
        return [...jerks, step];
      }),
    }),
  },
  'gouges-upright': {
    measure: 'squareness',
    fits: (drill) => drill.intended.travelAngleDeg !== null && drill.intended.travelAngleDeg.high < -10,
    make: (good) => ({
      script: withSteps(
        good,
        good.steps.map((step) => (step.do === 'lean' ? { ...step, travelAngleDeg: -5 } : step)),
      ),
    }),
  },
  'lets-go-at-edge': {
    measure: 'end-of-cut',
    fits: (drill) => drill.finish === 'run-off' && drill.plate.thicknessMm >= THICK_MM && !grooves(drill),
    // Neither leads the arc out nor slows: the bottom of the front never comes to the edge.
    make: (good) => ({
      script: eachMove(inOneGo(good), (step) => [{ ...step, to: { alongShare: 1 }, speed: { inWindow: 0.9 } }]),
    }),
  },
  'fires-in-the-air': {
    measure: 'torch-parts',
    fits: () => true,
    make: (good, drill) => ({ script: withSteps(good, [...shotsInTheAir(drill), ...good.steps]) }),
  },
} as const satisfies Record<string, HandFault>;

/** The start at another height, and up or down from there to cutting height before the way begins. */
function atStart(script: HandScript, heightMm: number, cutMm: number): HandScript {
  const steps = script.steps.map((step) => (step.do === 'place' ? { ...step, heightMm } : step));
  const hasHeight = steps.some((step) => step.do === 'height');
  const placed = withSteps(script, steps);
  return hasHeight ? placed : beforeFirstMove(placed, [{ do: 'height', heightMm: cutMm, overS: 0.3 }]);
}

/** Plays with the trigger high above the plate, as often as it takes to show: every start costs, and nothing is cut. */
function shotsInTheAir(drill: Drill): HandStep[] {
  const shots = drill.tolerances.spentLifeShare * SHOTS_PER_LIFE;
  const shot: HandStep[] = [
    { do: 'trigger', on: true },
    { do: 'wait', for: 'seconds', seconds: 0.5 },
    { do: 'trigger', on: false },
    { do: 'wait', for: 'seconds', seconds: 0.3 },
  ];
  const count = shots < FEWEST_SHOTS ? FEWEST_SHOTS : shots > MOST_SHOTS ? MOST_SHOTS : round(shots);
  return [{ do: 'place', at: { alongMm: 0 }, heightMm: 80 }, ...Array.from({ length: count }, () => shot).flat()];
}
