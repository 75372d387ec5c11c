import { intraclassCorrelation } from '../../../electron/host/agreement/intraclass-correlation.ts';
import type { Drill } from '../../../sim-core/index.ts';
import { windowOfDrill } from '../../../sim-core/index.ts';
import { keptScore } from './kept-runs.ts';
import { type RankCorrelation, rankCorrelation, spearman } from './rank-correlation.ts';
import { type SyntheticHand, skillOn } from './skill-vector.ts';
import { skilledScript, skillToday } from './skilled-script.ts';

/**
 * Every so manieth hand does each drill a second time, on another day. Odd, as the hands' means are a sequence in base 2: every fourth hand
 * has a mean between 0.50 and 0.73, and of hands that are nearly alike no score could be repeated.
 */
const AGAIN_EVERY = 5;

/** So many hands the weights and zero points of core 2.3.0 were chosen by; what comes after them had no say. */
const HANDS_LOOKED_AT = 81;

/** Seeds of a hand's first and second day: its tremor, the day's errors, and the chance in the core. */
const firstDay = (hand: SyntheticHand): number => 1000 + hand.number;
const secondDay = (hand: SyntheticHand): number => 500_000 + hand.number;

export interface RankedDrill extends RankCorrelation {
  drillId: string;
  hands: number;
  /** Rank correlation over the hands by which nothing was chosen; null where there are none of them. */
  rhoOfOthers: number | null;
  /** Of the hands that did it twice: how many, and one day's score as a measure of the hand, absolute agreement. */
  twice: number;
  icc21: number | null;
  /** The same without the hand whose two scores differ most: how much of it hangs on one that did not cut at all on one of its days. */
  icc21ButOne: number | null;
  /** The same of what the hands themselves were on these two days: about what a score comes to that tells a day's skill without fail. */
  icc21OfHands: number | null;
  /** Share of the hands with 99 marks or more, and with 1 or less: there the score tells nobody from another. */
  atTop: number;
  atBottom: number;
}

interface Scored {
  skill: number;
  score: number;
  again: number | null;
  /** How skilled it was on the days on which it did the drill. */
  onDays: number[];
}

/** Every hand on every drill, hand by hand, so that a campaign that is cut short has done all drills alike. */
export function rankDrills(
  drills: readonly Drill[],
  hands: readonly SyntheticHand[],
  seed: number,
  inTime: () => boolean,
): RankedDrill[] {
  const scored = drills.map((drill) => ({ drill, window: windowOfDrill(drill), of: [] as Scored[] }));
  for (const hand of hands) {
    if (!inTime()) break;
    for (const { drill, window, of } of scored) {
      const onDay = (day: number): number =>
        keptScore({ drill, script: skilledScript(hand, drill, window, { counter: day }), seed: day, persists: true }).score;
      const twice = hand.number % AGAIN_EVERY === 0;
      const again = twice ? onDay(secondDay(hand)) : null;
      const days = twice ? [firstDay(hand), secondDay(hand)] : [firstDay(hand)];
      const onDays = days.map((day) => skillOn(drill, skillToday(hand, { counter: day })));
      of.push({ skill: skillOn(drill, hand.skill), score: onDay(firstDay(hand)), again, onDays });
    }
  }
  const random = { counter: seed };
  return scored.map(({ drill, of }) => {
    const skills = of.map(({ skill }) => skill);
    const scores = of.map(({ score }) => score);
    const days = of.flatMap(({ score, again }) => (again === null ? [] : [[score, again]]));
    const ofHands = of.flatMap(({ onDays }) => (onDays.length > 1 ? [onDays] : []));
    return {
      drillId: drill.id,
      hands: of.length,
      rhoOfOthers:
        of.length > HANDS_LOOKED_AT + 2 ? spearman(skills.slice(HANDS_LOOKED_AT), scores.slice(HANDS_LOOKED_AT)) : null,
      ...rankCorrelation(skills, scores, random),
      twice: days.length,
      icc21: days.length < 2 ? null : intraclassCorrelation(days).icc21,
      icc21ButOne: days.length < 3 ? null : intraclassCorrelation(withoutWidest(days)).icc21,
      icc21OfHands: ofHands.length < 2 ? null : intraclassCorrelation(ofHands).icc21,
      atTop: scores.filter((score) => score >= 99).length / of.length,
      atBottom: scores.filter((score) => score <= 1).length / of.length,
    };
  });
}

function withoutWidest(pairs: readonly number[][]): number[][] {
  const apart = ([one = 0, other = 0]: readonly number[]): number => Math.abs(one - other);
  const widest = pairs.reduce((most, pair) => (apart(pair) > apart(most) ? pair : most));
  return pairs.filter((pair) => pair !== widest);
}
