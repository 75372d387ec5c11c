import type { ScoreRecord } from '../contract.ts';
import { HostError } from './host-error.ts';

export interface Overruling {
  measureId: string;
  mark: number;
  reason: string;
}

/** The run's own marks, by measure. */
export function ownMarks(score: ScoreRecord): { measureId: string; mark: number }[] {
  return score.measures.map(({ id, mark }) => ({ measureId: id, mark }));
}

/** @throws HostError 'conflict' where a measure is overruled twice, or has no mark in this run */
export function mustFitMarks(score: ScoreRecord, overruled: readonly Overruling[]): void {
  for (const [index, { measureId }] of overruled.entries()) {
    if (!score.measures.some((measure) => measure.id === measureId))
      throw new HostError('conflict', `This run has no mark for ${measureId} that could be overruled.`);
    if (overruled.findIndex((one) => one.measureId === measureId) !== index)
      throw new HostError('conflict', `The mark for ${measureId} is overruled twice.`);
  }
}

/** The score with other marks in place: the run's own, moved by their weighted difference, 0 to 100. */
export function scoreAfterOverruling(score: ScoreRecord, overruled: readonly Overruling[]): number {
  const weights = score.measures.reduce((sum, measure) => sum + measure.weight, 0);
  const moved = overruled.reduce((sum, { measureId, mark }) => {
    const own = score.measures.find((measure) => measure.id === measureId);
    return own ? sum + (mark - own.mark) * own.weight : sum;
  }, 0);
  return weights > 0 ? Math.min(100, Math.max(0, score.score + moved / weights)) : score.score;
}
