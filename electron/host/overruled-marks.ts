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
