import type { HandStep } from '../../sim-core/drill/hand-script-schema.ts';
import { ANSWER_FAULTS } from '../../sim-core/hand/answer-faults.ts';
import type { FaultHand } from '../../sim-core/hand/fault-hands.ts';
import { HAND_FAULTS } from '../../sim-core/hand/hand-faults.ts';
import type { HandWindow } from '../../sim-core/hand/hand-window.ts';
import { eachMove, withHabits, withSteps } from '../../sim-core/hand/script-edits.ts';
import { TECHNIQUE_FAULTS } from '../../sim-core/hand/technique-faults.ts';
import { type Drill, type HandScript, type RigAnswers, referenceHand, rightAnswers } from '../../sim-core/index.ts';
import type { Figures } from './figures.ts';

/** What one learner brings along and keeps: where the hand goes wrong by habit, whatever the drill. */
export interface Bent {
  /** Added to where in the speed window the hand travels: positive = too fast. In widths of the window. */
  pace: number;
  /** Added to the height of the tip, mm. */
  heightMm: number;
  /** Added to the lean across the travel, deg. */
  leanDeg: number;
  /** How much more than others the hand weaves about the line. */
  weave: number;
  /** How likely an unskilled start or end goes wrong. */
  hasty: number;
}

export interface PractisedHand {
  script: HandScript;
  answers: RigAnswers;
}

const FAULTS = { ...ANSWER_FAULTS, ...TECHNIQUE_FAULTS, ...HAND_FAULTS };
type Fault = keyof typeof FAULTS;

/** Slips of start, end, pierce and groove, and how likely each is for somebody without any skill. */
const SLIPS: readonly (readonly [Fault, number])[] = [
  ['leaves-early', 0.3],
  ['leaves-late', 0.3],
  ['stops-short', 0.22],
  ['leaves-tab', 0.35],
  ['pierces-high', 0.3],
  ['pierces-upright', 0.45],
  ['pierces-near', 0.4],
  ['leaves-blind', 0.25],
  ['stays-high', 0.35],
  ['lets-go-at-edge', 0.3],
  ['gouges-uneven', 0.35],
  ['gouges-upright', 0.3],
  ['wrong-bevel', 0.25],
  ['halting', 0.22],
];
/** Slips of the rig check and of naming a fault; a run has one at most. */
const WRONG_ANSWERS: readonly (readonly [Fault, number])[] = [
  ['trap-left-full', 0.35],
  ['clamp-on-coating', 0.3],
  ['low-pressure', 0.2],
  ['guide-too-near', 0.25],
  ['guide-too-far', 0.25],
  ['mode-for-plain-plate', 0.4],
  ['names-wrong-cause', 0.55],
  ['names-wrong-remedy', 0.3],
];

/**
 * A hand on its way from a beginner's to the reference hand's.
 * @param skill 0 = the first time with a torch, 1 = the reference hand
 */
export function practiceHand(drill: Drill, window: HandWindow, skill: number, bent: Bent, figures: Figures): PractisedHand {
  const lack = 1 - skill;
  let script = referenceHand(drill, window);
  let answers = rightAnswers(drill);
  for (const [id, likely] of SLIPS) {
    if (!figures.happens(likely * lack * bent.hasty)) continue;
    if (FAULTS[id].fits(drill)) script = FAULTS[id].make(script, drill, window).script;
  }
  for (const [id, likely] of WRONG_ANSWERS) {
    if (!figures.happens(likely * lack * bent.hasty) || !FAULTS[id].fits(drill)) continue;
    const made: FaultHand = FAULTS[id].make(script, drill, window);
    answers = {
      choices: made.choices ?? answers.choices,
      diagnosis: made.diagnosis === undefined ? answers.diagnosis : made.diagnosis,
    };
    break;
  }
  const pace = bent.pace + figures.around(0.8) * lack;
  const higherMm = bent.heightMm + figures.around(1.3) * lack;
  const leanDeg = bent.leanDeg + figures.around(6) * lack;
  const slowest = slowestInWindow(window);
  script = eachMove(script, (step) => [{ ...step, speed: faster(step.speed, pace + figures.around(0.25) * lack, slowest) }]);
  script = withSteps(script, posed(script.steps, drill, higherMm, leanDeg));
  return { script: withHabits(script, habitsOf(drill, script, lack, bent)), answers };
}

/** Nobody creeps slower than this: six tenths of the low end of the window, as a place in it. */
function slowestInWindow({ windowLowMmPerS: low, windowHighMmPerS: high }: HandWindow): number {
  return low === null || high === null ? 0 : (-0.4 * low) / (high - low);
}

function faster(speed: Extract<HandStep, { do: 'move' }>['speed'], by: number, slowest: number): typeof speed {
  if ('inWindow' in speed) return { inWindow: Math.min(8, Math.max(slowest, speed.inWindow + by)) };
  if ('timesMiddle' in speed) return { timesMiddle: Math.max(0.2, speed.timesMiddle * (1 + by / 4)) };
  return { mmPerS: Math.max(0.5, speed.mmPerS * (1 + by / 4)) };
}

/** The steps at another height, and leaned aside once before the first move. */
function posed(steps: readonly HandStep[], drill: Drill, higherMm: number, leanDeg: number): HandStep[] {
  const least = drill.tolerances.standOffMm.low > 0 ? 0.4 : 0;
  const height = (mm: number) => Math.max(least, mm + higherMm);
  const firstMove = steps.findIndex((step) => step.do === 'move');
  const leaned = steps.findLast((step, index) => index < firstMove && step.do === 'lean' && step.workAngleDeg !== undefined);
  const intended = leaned?.do === 'lean' ? (leaned.workAngleDeg ?? 0) : 0;
  const aside: HandStep = { do: 'lean', workAngleDeg: intended + leanDeg, overS: 0.3, meanwhile: true };
  return steps.flatMap((step, index): HandStep[] => {
    const at = step.do === 'place' && step.heightMm !== undefined ? { ...step, heightMm: height(step.heightMm) } : step;
    const here = at.do === 'height' ? { ...at, heightMm: height(at.heightMm) } : at;
    return index === firstMove ? [aside, here] : [here];
  });
}

function habitsOf(drill: Drill, script: HandScript, lack: number, bent: Bent): HandScript['habits'] {
  const steady = script.habits ?? {};
  const amplitudeMm = drill.tolerances.offLineMm * (0.3 + 2.4 * bent.weave) * lack;
  const weaves = drill.guide.kind === 'freehand' && amplitudeMm > 0.05;
  return {
    ...steady,
    tremorMm: (steady.tremorMm ?? 0.1) + 0.3 * lack,
    heightTremorMm: (steady.heightTremorMm ?? 0.1) + 0.35 * lack,
    leanTremorDeg: (steady.leanTremorDeg ?? 0.8) + 2 * lack,
    reactionS: Math.min(0.9, (steady.reactionS ?? 0.15) + 0.3 * lack),
    ...(weaves ? { wander: { amplitudeMm, wavelengthMm: 70 } } : {}),
  };
}
