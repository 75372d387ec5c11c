import { intraclassCorrelation } from '../../../electron/host/agreement/intraclass-correlation.ts';
import type { Drill } from '../../../sim-core/index.ts';
import { windowOfDrill } from '../../../sim-core/index.ts';
import { keptScore } from './kept-runs.ts';
import { type RankCorrelation, rankCorrelation, spearman } from './rank-correlation.ts';
import { type SyntheticHand, skillOn } from './skill-vector.ts';
import { skilledScript, skillToday } from './skilled-script.ts';

/** So many hands the weights and zero points were chosen by; what comes after them had no say. */
const HANDS_LOOKED_AT = 81;

/** Seeds of a hand's first and second day: its tremor, the day's errors, and the chance in the core. */
const firstDay = (hand: SyntheticHand): number => 1000 + hand.number;
const secondDay = (hand: SyntheticHand): number => 500_000 + hand.number;

export interface RankedDrill extends RankCorrelation {
  drillId: string;
  hands: number;
  /** Rank correlation over the hands by which nothing was chosen; null where there are none of them. */
  rhoOfOthers: number | null;
  /** Each hand does it on two days: one day's score as a measure of the hand, absolute agreement; and over the hands by which nothing was chosen. */
  icc21: number | null;
  icc21OfOthers: number | null;
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
  /** What it came to on its two days, and how skilled it was on them. */
  scores: [number, number];
  onDays: [number, number];
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
      const scoreOn = (day: number): number =>
        keptScore({ drill, script: skilledScript(hand, drill, window, { counter: day }), seed: day, persists: true }).score;
      const skilledOn = (day: number): number => skillOn(drill, skillToday(hand, { counter: day }));
      const [first, second] = [firstDay(hand), secondDay(hand)];
      of.push({
        skill: skillOn(drill, hand.skill),
        scores: [scoreOn(first), scoreOn(second)],
        onDays: [skilledOn(first), skilledOn(second)],
      });
    }
  }
  const random = { counter: seed };
  return scored.map(({ drill, of }) => {
    const skills = of.map(({ skill }) => skill);
    const scores = of.map((each) => each.scores[0]);
    const days = of.map((each) => each.scores);
    const others = of.slice(HANDS_LOOKED_AT);
    return {
      drillId: drill.id,
      hands: of.length,
      rhoOfOthers: others.length > 2 ? spearman(skills.slice(HANDS_LOOKED_AT), scores.slice(HANDS_LOOKED_AT)) : null,
      ...rankCorrelation(skills, scores, random),
      icc21: icc21(days),
      icc21OfOthers: icc21(others.map((each) => each.scores)),
      icc21ButOne: days.length < 3 ? null : icc21(withoutWidest(days)),
      icc21OfHands: icc21(of.map(({ onDays }) => onDays)),
      atTop: scores.filter((score) => score >= 99).length / of.length,
      atBottom: scores.filter((score) => score <= 1).length / of.length,
    };
  });
}

/** Null where there are too few for one. */
function icc21(pairs: readonly number[][]): number | null {
  return pairs.length < 2 ? null : intraclassCorrelation(pairs).icc21;
}

function withoutWidest(pairs: readonly number[][]): number[][] {
  const apart = ([one = 0, other = 0]: readonly number[]): number => Math.abs(one - other);
  const widest = pairs.reduce((most, pair) => (apart(pair) > apart(most) ? pair : most));
  return pairs.filter((pair) => pair !== widest);
}
