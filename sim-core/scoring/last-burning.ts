import { ARC_STATES } from '../run/types.ts';
import type { MeasureInput } from './score-context.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** Last index with the arc on metal; of a run that cut: who never leaves the start waits there no longer than that. */
export function lastBurning({ trace, samples }: MeasureInput): number {
  let last = trace.ticks - 1;
  while (last > trace.transferIndex && samples.columns.arcState[last] !== TRANSFERRED) last--;
  return last;
}
