import { abs } from '../math/elementary.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { CORRIDOR_MM } from './phase.ts';
import type { MeasureInput } from './score-context.ts';
import { tipWayMm } from './tip-way.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** An arc that rests on the metal marks it as one that goes on does, at this pace, mm/s. */
const RESTING_MM_PER_S = 4;

/** What was cut away from the line. */
export interface CutBeside {
  /** Way with the arc on the metal there, mm; a rest counts as a slow way. */
  wayMm: number;
  /** First and last index, and the one that was farthest from the line; -1 where there is none. */
  from: number;
  to: number;
  worst: number;
}

/** The arc on the metal farther from the line than its corridor: to its sides, or before its start. Beyond its end it is an overrun. */
export function cutBeside({ trace, samples }: MeasureInput): CutBeside {
  const { arcState } = samples.columns;
  const beside: CutBeside = { wayMm: 0, from: -1, to: -1, worst: -1 };
  for (let i = 1; i < trace.ticks; i++) {
    if (arcState[i] !== TRANSFERRED) continue;
    if (abs(trace.offsetMm[i]) <= CORRIDOR_MM && trace.sMm[i] >= -CORRIDOR_MM) continue;
    const way = tipWayMm(samples, i - 1, i);
    const rest = RESTING_MM_PER_S / TICK_HZ;
    beside.wayMm += way > rest ? way : rest;
    if (beside.from < 0) beside.from = i;
    beside.to = i;
    if (beside.worst < 0 || abs(trace.offsetMm[i]) > abs(trace.offsetMm[beside.worst])) beside.worst = i;
  }
  return beside;
}
