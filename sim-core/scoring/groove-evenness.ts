import { abs, clamp } from '../math/elementary.ts';
import { grooveCounts } from './groove-depth.ts';
import { judgeBins } from './judge-bins.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Evenness this far below what is tolerated brings the mark to 0. */
const ZERO_BELOW = 0.4;

/** A mean depth under this share of the least depth asked for is no groove, and a scratch is not even, however even it is. */
const LEAST_GROOVE_SHARE = 0.2;

/** How even the groove's depth is along the line: 1 - standard deviation / mean. Value: the depth there over the mean depth. */
export function markGrooveEvenness(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const allowed = drill.tolerances.evenness;
  const band = { low: allowed, high: null, unit: 'share' } as const;
  const depths: number[] = [];
  for (let bin = 0; bin < trace.binIndex.length; bin++) if (grooveCounts(input, bin)) depths.push(trace.binGrooveMm[bin]);
  const mean = depths.reduce((sum, depth) => sum + depth, 0) / depths.length;
  if (!(mean > LEAST_GROOVE_SHARE * (drill.intended.grooveDepthMm?.low ?? drill.plate.thicknessMm))) {
    return { mark: 0, band, evidence: [] };
  }
  const variance = depths.reduce((sum, depth) => sum + (depth - mean) * (depth - mean), 0) / depths.length;
  const evenness = 1 - Math.sqrt(variance) / mean;
  const lost = clamp((allowed - evenness) / ZERO_BELOW, 0, 1);
  if (lost === 0) return { mark: 100, band, evidence: [] };
  // The stretches that make the variation: those farther from the mean than is tolerated, each by its square.
  const unevenness = (bin: number): number => trace.binGrooveMm[bin] / mean - 1;
  const { lostShare, evidence } = judgeBins(input, {
    counts: (bin) => grooveCounts(input, bin),
    loss: (bin) => (abs(unevenness(bin)) > 1 - allowed ? unevenness(bin) * unevenness(bin) : 0),
    value: (bin) => trace.binGrooveMm[bin] / mean,
    fault: () => 'groove-evenness.uneven',
    unit: 'share',
  });
  const scale = lostShare > 0 ? lost / lostShare : 0;
  for (const stretch of evidence) stretch.lostMarks *= scale;
  return { mark: 100 * (1 - lost), band, evidence };
}
