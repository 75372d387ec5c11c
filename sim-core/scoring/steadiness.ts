import { abs, clamp } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import { judgeTicks } from './judge-ticks.ts';
import { leadsOut } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Getting under way and coming to the end are no unsteadiness, s. */
const GRACE_S = 0.4;

/** Marks reach 0 at this many times the tolerated variation. */
const ZERO_AT_TIMES = 4;

/** A speed this far below the hand's own pace, as a share of it, is a halt. */
const HALT_SHARE = -0.75;

/** How even the speed is, whatever its height: root mean square of its distance from the hand's own pace, as a share of the pace. Value: that distance. */
export function markSteadiness(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const allowed = drill.tolerances.speedVariation;
  const band = { low: null, high: allowed, unit: 'share' } as const;
  const from = trace.departIndex + GRACE_S * TICK_HZ;
  const to = trace.lastCutIndex - GRACE_S * TICK_HZ;
  const counts = (i: number): boolean => trace.phase[i] === PHASE.cut && i >= from && i <= to && !leadsOut(input, i);
  let count = 0;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (!counts(i)) continue;
    const speed = trace.speedMmPerS[i];
    count++;
    sum += speed;
    squares += speed * speed;
  }
  // The mean by distance: the pace while under way, which a halt does not pull down.
  const pace = sum > 0 ? squares / sum : 0;
  if (!(pace > 0)) return { mark: 0, band, evidence: [] };
  const variance = squares / count - (2 * pace * sum) / count + pace * pace;
  const variation = Math.sqrt(variance > 0 ? variance : 0) / pace;
  const lost = clamp((variation - allowed) / (allowed * (ZERO_AT_TIMES - 1)), 0, 1);
  if (lost === 0) return { mark: 100, band, evidence: [] };
  // The stretches that make the variation: those farther from the pace than is tolerated, each by its square.
  const unevenness = (i: number): number => trace.speedMmPerS[i] / pace - 1;
  const { lostShare, evidence } = judgeTicks(input, {
    counts,
    loss: (i) => (abs(unevenness(i)) > allowed ? unevenness(i) * unevenness(i) : 0),
    value: unevenness,
    fault: () => 'steadiness.uneven',
    unit: 'share',
    byDistance: 0,
  });
  const scale = lostShare > 0 ? lost / lostShare : 0;
  for (const stretch of evidence) {
    stretch.lostMarks *= scale;
    if (stretch.value < HALT_SHARE) stretch.fault = 'steadiness.halted';
  }
  return { mark: 100 * (1 - lost), band, evidence };
}
