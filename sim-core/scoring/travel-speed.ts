import { clamp } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { leadsOut } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Getting under way and coming to the end take a moment; the speed there is not held against the hand: s, and at most this share of the cut. */
const GRACE_S = 0.3;
const GRACE_SHARE = 0.1;

/** Marks reach 0 this far below the window, as a share of its low end. */
const ZERO_BELOW_SHARE = 0.4;

/** Above the window they reach 0 where the cut would be lost, but never this near to its high end nor farther from it, as shares. */
const ZERO_ABOVE_NEAREST = 1.1;
const ZERO_ABOVE_FARTHEST = 1.25;

/** Speed along the line against the window that the core found for this metal, thickness and current. */
export function markTravelSpeed(input: MeasureInput): MeasureResult {
  const { trace } = input;
  const { windowLowMmPerS: low, windowHighMmPerS: high, losingSpeedMmPerS: losing } = input.context.window;
  if (low === null || high === null) return { mark: 0, band: null, evidence: [] };
  const zeroAbove = clamp(losing ?? high, high * ZERO_ABOVE_NEAREST, high * ZERO_ABOVE_FARTHEST);
  const under = GRACE_SHARE * (trace.lastCutIndex - trace.departIndex);
  const grace = under < GRACE_S * TICK_HZ ? under : GRACE_S * TICK_HZ;
  const from = trace.departIndex + grace;
  const to = trace.lastCutIndex - grace;
  const { lostShare, evidence, farOffShare } = judgeTicks(input, {
    // Slowing down at the end, to let the bottom of the cut catch up, is right.
    counts: (i) => trace.phase[i] === PHASE.cut && i >= from && i <= to && !(trace.speedMmPerS[i] < low && leadsOut(input, i)),
    loss: (i) => lossOutside(trace.speedMmPerS[i], low, high, low * (1 - ZERO_BELOW_SHARE), zeroAbove),
    value: (i) => trace.speedMmPerS[i],
    fault: (i) => (trace.speedMmPerS[i] < low ? 'travel-speed.too-slow' : 'travel-speed.too-fast'),
    unit: 'mm/s',
    byDistance: 0.5,
  });
  return { mark: 100 * (1 - lostShare), band: { low, high, unit: 'mm/s' }, evidence, farOffShare };
}
