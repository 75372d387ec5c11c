import { marksReasons } from './rubric.ts';
import type { MeasureScore, Score, ScoreReason } from './score.ts';

/** Another mark, 0 to 100, that somebody puts in the place of a run's own. */
export interface OverruledMark {
  measureId: string;
  mark: number;
}

/** What a kept score must hold for other marks to be put into it, whichever core gave it. */
export interface WeighedScore {
  score: number;
  measures: readonly { id: string; mark: number; weight: number }[];
}

/** What the metal shows, whatever the marks say. */
const OF_THE_METAL: readonly ScoreReason['kind'][] = ['not-severed', 'not-grooved', 'cut-aside'];

/** Smaller than anything that can come of marks and weights. */
const ROUNDING = 1e-9;

/** The score with other marks in place: the run's own, moved by their weighted difference, 0 to 100. */
export function scoreAfterOverruling(score: WeighedScore, overruled: readonly OverruledMark[]): number {
  const weights = score.measures.reduce((sum, measure) => sum + measure.weight, 0);
  const moved = overruled.reduce((sum, { measureId, mark }) => {
    const own = score.measures.find((measure) => measure.id === measureId);
    return own ? sum + (mark - own.mark) * own.weight : sum;
  }, 0);
  if (!(weights > 0)) return score.score;
  const after = score.score + moved / weights;
  return after < 0 ? 0 : after > 100 ? 100 : after;
}

/**
 * Why a run would not pass with other marks in place; what the metal shows is not changed by a mark, and what was far off stands until
 * somebody marks that measure otherwise. Empty where it passes.
 */
export function reasonsAfterOverruling(score: Score, overruled: readonly OverruledMark[], passMark: number): ScoreReason[] {
  const standing = score.reasons.filter((reason) => {
    if (reason.kind === 'far-off') return !overruled.some(({ measureId }) => measureId === reason.measureId);
    return OF_THE_METAL.includes(reason.kind);
  });
  const measures = score.measures.map((measure): MeasureScore => {
    const other = overruled.find(({ measureId }) => measureId === measure.id);
    return other ? { ...measure, mark: other.mark } : measure;
  });
  return [...standing, ...marksReasons(measures, scoreAfterOverruling(score, overruled) + ROUNDING, passMark)];
}
