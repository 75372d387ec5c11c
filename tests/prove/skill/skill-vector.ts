import type { Drill, MeasureId } from '../../../sim-core/index.ts';
import { nextNormal, nextUnit, type RandomState } from '../../../sim-core/math/random.ts';

/** What a hand can be good or bad at, each for itself. */
export const SKILLS = ['speed', 'squareness', 'stand-off', 'dwell', 'line', 'finish', 'noise', 'reaction'] as const;
export type Skill = (typeof SKILLS)[number];

/** Of each skill 0 = somebody who holds a torch for the first time, 1 = no error at all. */
export type SkillVector = Readonly<Record<Skill, number>>;

/** The way in which a hand goes wrong where it does: each error has two sides, and a hand keeps to its own. */
export type Bents = Readonly<Record<Skill, 1 | -1>>;

export interface SyntheticHand {
  number: number;
  skill: SkillVector;
  bents: Bents;
}

/** From near-beginners to hands that are nearly always within every tolerance; the mean of a hand's skills lies between. */
const LEAST = 0.05;
const MOST = 0.95;

/**
 * How far the skills of one hand lie about its mean, standard deviation. Means are even over 0.9, deviation 0.26: two skills of one
 * person then agree by 0.26^2 / (0.26^2 + 0.15^2) = 0.75. Practice lifts all of them together, and everybody has a weak side.
 */
const OWN_SPREAD = 0.15;

/** Hands whose means fill the range evenly however many are taken, each with its own strong and weak sides. */
export function syntheticHands(count: number, seed: number): SyntheticHand[] {
  const random = { counter: seed };
  return Array.from({ length: count }, (_, number) => {
    const mean = LEAST + (MOST - LEAST) * radicalInverse(number + 1);
    const skill = bySkill(() => within01(mean + OWN_SPREAD * nextNormal(random)));
    return { number, skill, bents: bySkill(() => side(random)) };
  });
}

function side(random: RandomState): 1 | -1 {
  return nextUnit(random) < 0.5 ? -1 : 1;
}

function bySkill<T>(make: () => T): Record<Skill, T> {
  return Object.fromEntries(SKILLS.map((skill) => [skill, make()])) as Record<Skill, T>;
}

/** The sequence of van der Corput in base 2: every beginning of it is spread evenly. */
function radicalInverse(index: number): number {
  let [rest, digit, sum] = [index, 0.5, 0];
  for (; rest > 0; rest = Math.floor(rest / 2), digit /= 2) sum += (rest % 2) * digit;
  return sum;
}

function within01(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/**
 * Which skill a measure asks for, and in what shares where it asks for several. Set before any score was looked at, from what the
 * measure is about; an outcome asks for what brings it about. A rig check and a fault that is named are not the hand's work.
 */
const ASKED_BY: Readonly<Record<MeasureId, Partial<Record<Skill, number>>>> = {
  severance: { speed: 0.4, dwell: 0.3, finish: 0.3 },
  'travel-speed': { speed: 1 },
  'spark-angle': { speed: 0.8, squareness: 0.2 },
  squareness: { squareness: 0.8, noise: 0.2 },
  'stand-off': { 'stand-off': 0.8, noise: 0.2 },
  'line-following': { line: 0.8, noise: 0.2 },
  'edge-dwell': { dwell: 0.7, reaction: 0.3 },
  steadiness: { speed: 0.5, noise: 0.5 },
  'end-of-cut': { finish: 0.8, reaction: 0.2 },
  pierce: { dwell: 0.4, 'stand-off': 0.3, squareness: 0.2, reaction: 0.1 },
  'groove-depth': { speed: 0.4, squareness: 0.2, 'stand-off': 0.2, line: 0.2 },
  'groove-evenness': { speed: 0.5, noise: 0.5 },
  'part-size': { line: 0.7, squareness: 0.3 },
  'gap-crossing': { speed: 0.5, 'stand-off': 0.5 },
  'cut-quality': { squareness: 0.5, speed: 0.5 },
  'torch-parts': { 'stand-off': 0.5, dwell: 0.5 },
  'rig-check': {},
  'fault-finding': {},
};

/** Weight of each skill on a drill: the weights of the measures that its rubric marks, shared out. They add up to 1. */
export function skillWeights(drill: Drill): SkillVector {
  const weights = bySkill(() => 0);
  for (const { id, weight } of drill.rubric.measures) {
    for (const skill of SKILLS) weights[skill] += weight * (ASKED_BY[id][skill] ?? 0);
  }
  // A radius arm leaves the hand no say in where the torch goes.
  if (drill.guide.kind === 'circle') weights.line = 0;
  const sum = SKILLS.reduce((all, skill) => all + weights[skill], 0);
  return bySkillOf((skill) => weights[skill] / sum);
}

/** How skilled a hand is in what a drill asks for, 0 to 1: the weighted mean of its skills. A drill that does not mark the pause cannot rank by it. */
export function skillOn(drill: Drill, skill: SkillVector): number {
  const weights = skillWeights(drill);
  return SKILLS.reduce((sum, one) => sum + weights[one] * skill[one], 0);
}

function bySkillOf<T>(make: (skill: Skill) => T): Record<Skill, T> {
  return Object.fromEntries(SKILLS.map((skill) => [skill, make(skill)])) as Record<Skill, T>;
}
