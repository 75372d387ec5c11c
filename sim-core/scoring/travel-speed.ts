import { TICK_HZ } from '../run/types.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { PHASE } from './path-trace.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Getting under way and coming to the end take a moment; the speed there is not held against the hand, s. */
const GRACE_S = 0.3;

/** Marks reach 0 this far outside the window, as a share of its nearer end. */
const ZERO_BELOW_SHARE = 0.4;
const ZERO_ABOVE_SHARE = 0.25;

/** Speed along the line against the window that the core found for this metal, thickness and current. */
export function markTravelSpeed(input: MeasureInput): MeasureResult {
  const { trace } = input;
  const { windowLowMmPerS: low, windowHighMmPerS: high } = input.context.window;
  if (low === null || high === null) return { mark: 0, band: null, evidence: [] };
  const from = trace.departIndex + GRACE_S * TICK_HZ;
  const to = trace.lastCutIndex - GRACE_S * TICK_HZ;
  const { lostShare, evidence } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut && i >= from && i <= to,
    loss: (i) => lossOutside(trace.speedMmPerS[i], low, high, low * (1 - ZERO_BELOW_SHARE), high * (1 + ZERO_ABOVE_SHARE)),
    value: (i) => trace.speedMmPerS[i],
    fault: (i) => (trace.speedMmPerS[i] < low ? 'travel-speed.too-slow' : 'travel-speed.too-fast'),
    unit: 'mm/s',
    byDistance: 0.5,
  });
  return { mark: 100 * (1 - lostShare), band: { low, high, unit: 'mm/s' }, evidence };
}
