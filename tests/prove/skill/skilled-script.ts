import type { HandPlace, HandStep } from '../../../sim-core/drill/hand-script-schema.ts';
import { type HandWindow, speedMmPerS } from '../../../sim-core/hand/hand-window.ts';
import { type Move, withHabits, withSteps } from '../../../sim-core/hand/script-edits.ts';
import { type Drill, type HandScript, pathGeometry, referenceHand } from '../../../sim-core/index.ts';
import { nextNormal, type RandomState } from '../../../sim-core/math/random.ts';
import { SKILLS, type Skill, type SkillVector, type SyntheticHand } from './skill-vector.ts';

/**
 * Where somebody without a skill stands: so many times the drill's own tolerance off. A hand with 0.6 of a skill is then just
 * within tolerance, and the measures' zero points, which lie at 2.5 to 3 tolerances, are reached by few.
 */
const BEGINNER_TIMES = 2.5;

/**
 * Pace of a beginner who goes slow, over the low end of the window, and of one who goes fast, over its high end. The one is
 * farther from the middle, the other as grave: there the cut is being lost.
 */
const BEGINNER_SLOW = 0.5;
const BEGINNER_FAST = 1.15;
/** Unevenness of a beginner's pace, standard deviation as a share of it, from one piece of so many mm to the next. */
const BEGINNER_UNEVEN = 0.2;
const PACE_MM = 10;
/** Nobody creeps slower than this share of the right pace. */
const LEAST_PACE = 0.25;

/** Who leaves early leaves out this share of the pause; a pause that is over before the slowest hand has reacted to it, s, is left early by nobody. */
const BEGINNER_EARLY = 0.9;
const LEAST_EARLY_S = 0.7;

/** Wavelength of a weave, mm, and the share of it that is a bias to one side. */
const WEAVE_MM = 55;
const BIAS_SHARE = 0.4;

/** The end counts as reached within so many mm, and the trigger as let go in time within so many s. */
const REACHED_MM = 1;
const LET_GO_S = 1;

/** Tremor of a steady hand and what a beginner's adds, mm and deg root mean square; time to react, s. */
const TREMOR = { mm: [0.08, 0.4], heightMm: [0.08, 0.5], leanDeg: [0.6, 3] } as const;
const REACTION_S = [0.12, 0.5] as const;

/** From one run to the next a beginner's errors vary by this share of themselves, standard deviation. */
const BEGINNER_VARIES = 0.3;

type Lacks = Record<Skill, number>;

/**
 * A script in which a hand does a drill as well as it can on one day: the reference hand, off by what each skill lacks. `random` is
 * the day's: it varies the errors and draws the unevenness of the pace.
 */
export function skilledScript(hand: SyntheticHand, drill: Drill, window: HandWindow, random: RandomState): HandScript {
  const lacks = lacksToday(hand, random);
  const { bents } = hand;
  const good = referenceHand(drill, window);
  let steps = good.steps;
  steps = atHeight(steps, drill, lacks['stand-off'], bents['stand-off']);
  steps = leaned(steps, drill, lacks.squareness, bents.squareness);
  steps = leaving(steps, drill, window, lacks, bents.dwell);
  steps = ending(steps, drill, lacks.finish, bents.finish);
  steps = paced(steps, drill, window, lacks.speed, bents.speed, random);
  return withHabits({ ...withSteps(good, steps), name: `Hand ${hand.number + 1}` }, habits(good, drill, lacks, bents.line));
}

/** How skilled a hand is on one day, which no score of that day can tell it apart from. */
export function skillToday(hand: SyntheticHand, random: RandomState): SkillVector {
  const lacks = lacksToday(hand, random);
  return Object.fromEntries(SKILLS.map((one) => [one, 1 - lacks[one]])) as SkillVector;
}

function lacksToday({ skill }: SyntheticHand, random: RandomState): Lacks {
  const varies = BEGINNER_VARIES * (1 - skill.noise);
  return Object.fromEntries(
    SKILLS.map((one) => [one, Math.max(0, (1 - skill[one]) * (1 + varies * nextNormal(random)))]),
  ) as Lacks;
}

/** Too high, or too near where there is such a thing: a torch that may be dragged cannot be too near. */
function atHeight(steps: readonly HandStep[], drill: Drill, lack: number, bent: 1 | -1): HandStep[] {
  const { low, high } = drill.tolerances.standOffMm;
  const middle = (low + high) / 2;
  const off = (mm: number): number =>
    bent > 0 || low === 0 ? mm + lack * BEGINNER_TIMES * (high - middle) : mm * Math.max(0, 1 - lack);
  return steps.map((step) => {
    if (step.do === 'place' && step.heightMm !== undefined) return { ...step, heightMm: off(step.heightMm) };
    return step.do === 'height' ? { ...step, heightMm: off(step.heightMm) } : step;
  });
}

/** Leaned to one side of what is intended; a start that is to be leaned is leaned less, a push is not as flat. */
function leaned(steps: readonly HandStep[], drill: Drill, lack: number, bent: 1 | -1): HandStep[] {
  const offDeg = bent * lack * BEGINNER_TIMES * drill.tolerances.leanDeg;
  const firstMove = steps.findIndex(({ do: what }) => what === 'move');
  const before = steps.slice(0, firstMove).map((step): HandStep => {
    const travelAngleDeg = step.do === 'lean' ? step.travelAngleDeg : undefined;
    if (step.do !== 'lean' || !travelAngleDeg) return step;
    return { ...step, travelAngleDeg: Math.min(0, travelAngleDeg + Math.abs(offDeg) / 2) };
  });
  const intended = drill.intended.bevelDeg;
  const aside: HandStep = { do: 'lean', workAngleDeg: intended + offDeg, overS: 0.3, meanwhile: true };
  return [...before, aside, ...steps.slice(firstMove)];
}

/** Off before the pause is over, or long after it. A hole that is to be waited for is not left blind by somebody who looks at all. */
function leaving(steps: readonly HandStep[], drill: Drill, window: HandWindow, lacks: Lacks, bent: 1 | -1): HandStep[] {
  const neededS = drill.start === 'edge' ? (window.edgeDwellS ?? 0) : 0;
  const early = bent < 0 && neededS > LEAST_EARLY_S;
  const waits = steps.findIndex((step) => step.do === 'wait' && step.for === 'break-through');
  if (waits < 0) return [...steps];
  if (early) {
    const seconds = Math.max(0, neededS * (1 - BEGINNER_EARLY * lacks.dwell) - reactionS(lacks));
    const instead: HandStep[] = [
      { do: 'wait', for: 'arc' },
      { do: 'wait', for: 'seconds', seconds },
    ];
    return [...steps.slice(0, waits), ...instead, ...steps.slice(waits + 1)];
  }
  const seconds = lacks.dwell * BEGINNER_TIMES * drill.tolerances.lateStartS;
  const longer: HandStep = { do: 'wait', for: 'seconds', seconds };
  return [...steps.slice(0, waits + 1), longer, ...steps.slice(waits + 1)];
}

/** Lets go short of where the reference hand does, or holds the trigger on there; off the edge the arc goes out by itself. */
function ending(steps: readonly HandStep[], drill: Drill, lack: number, bent: 1 | -1): HandStep[] {
  if (bent > 0 && drill.finish !== 'run-off') {
    const held: HandStep = { do: 'wait', for: 'seconds', seconds: lack * BEGINNER_TIMES * LET_GO_S };
    return steps.flatMap((step) => (step.do === 'trigger' && !step.on ? [held, step] : [step]));
  }
  const { lengthMm } = pathGeometry(drill.path);
  const goodEndMm = Math.max(...steps.map((step) => (step.do === 'move' ? alongMm(step.to, lengthMm) : 0)));
  const endMm = goodEndMm - lack * (BEGINNER_TIMES * REACHED_MM + Math.max(0, goodEndMm - lengthMm));
  return steps.map((step) =>
    step.do === 'move' ? { ...step, to: { alongMm: Math.min(alongMm(step.to, lengthMm), endMm) } } : step,
  );
}

/** At another pace, which wavers from piece to piece. */
function paced(
  steps: readonly HandStep[],
  drill: Drill,
  window: HandWindow,
  lack: number,
  bent: 1 | -1,
  random: RandomState,
): HandStep[] {
  const lengthMm = pathGeometry(drill.path).lengthMm;
  const times = paceTimes(window, lack, bent);
  let at = 0;
  return steps.flatMap((step): HandStep[] => {
    if (step.do === 'place') at = alongMm(step.at, lengthMm);
    if (step.do !== 'move') return [step];
    const to = alongMm(step.to, lengthMm);
    const pieces = Math.max(1, Math.round(Math.abs(to - at) / PACE_MM));
    const mmPerS = speedMmPerS(step.speed, window) * times;
    const moves = Array.from({ length: pieces }, (_, piece): Move => {
      const uneven = Math.max(0.4, 1 + BEGINNER_UNEVEN * lack * nextNormal(random));
      const speed = { mmPerS: Math.min(300, Math.max(0.1, mmPerS * uneven)) };
      return { do: 'move', to: { alongMm: at + ((to - at) * (piece + 1)) / pieces }, speed };
    });
    at = to;
    return moves;
  });
}

/** Pace over the middle of the window, by what is lacking: towards the beginner's pace on its own side. */
function paceTimes({ windowLowMmPerS: low, windowHighMmPerS: high }: HandWindow, lack: number, bent: 1 | -1): number {
  if (low === null || high === null) throw new RangeError('A drill without a speed window has no pace.');
  const middle = (low + high) / 2;
  const beginner = bent > 0 ? high * BEGINNER_FAST : low * BEGINNER_SLOW;
  return Math.max(LEAST_PACE, 1 + lack * (beginner / middle - 1));
}

function alongMm(place: HandPlace, lengthMm: number): number {
  if ('alongMm' in place) return place.alongMm;
  if ('alongShare' in place) return place.alongShare * lengthMm;
  if ('pastEndMm' in place) return lengthMm + place.pastEndMm;
  throw new RangeError('The reference hand goes along the line and nowhere else.');
}

function habits(good: HandScript, drill: Drill, lacks: Lacks, bent: 1 | -1): HandScript['habits'] {
  const { offLineMm } = drill.tolerances;
  const weaveMm = lacks.line * BEGINNER_TIMES * offLineMm;
  const guided = good.habits?.bearsLeftMm ?? 0;
  return {
    tremorMm: TREMOR.mm[0] + TREMOR.mm[1] * lacks.noise,
    heightTremorMm: TREMOR.heightMm[0] + TREMOR.heightMm[1] * lacks.noise,
    leanTremorDeg: TREMOR.leanDeg[0] + TREMOR.leanDeg[1] * lacks.noise,
    reactionS: reactionS(lacks),
    wander: { amplitudeMm: (1 - BIAS_SHARE) * weaveMm, wavelengthMm: WEAVE_MM },
    // Against a guide a weak hand bears less, until it comes off.
    bearsLeftMm: guided === 0 ? bent * BIAS_SHARE * weaveMm : guided * (1 - lacks.line),
  };
}

function reactionS(lacks: Lacks): number {
  return Math.min(1, REACTION_S[0] + REACTION_S[1] * lacks.reaction);
}
