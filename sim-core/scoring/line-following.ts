import { abs } from '../math/elementary.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { PHASE } from './phase.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 at this many times the tolerated distance. */
const ZERO_AT_TIMES = 3;

/** Distance of the torch axis, where it meets the plate, from the line, its lead-in left out; by the millimetre of line. Value: left of the cut positive. */
export function markLineFollowing(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const allowed = drill.tolerances.offLineMm;
  const { lostShare, evidence } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut && trace.sMm[i] >= drill.leadInMm,
    loss: (i) => lossOutside(abs(trace.offsetMm[i]), 0, allowed, -1, allowed * ZERO_AT_TIMES),
    value: (i) => trace.offsetMm[i],
    fault: () => 'line-following.off-line',
    unit: 'mm',
    byDistance: 1,
  });
  return { mark: 100 * (1 - lostShare), band: { low: -allowed, high: allowed, unit: 'mm' }, evidence };
}
