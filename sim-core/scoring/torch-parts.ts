import { TICK_HZ } from '../run/types.ts';
import { lossByRatio, mostCostly } from './judge-ticks.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 where this many times the life was spent that the drill may cost; by the ratio, as wear differs by tens of times. */
const ZERO_AT_TIMES = 25;

/** The run is looked at in spans of so many ticks. */
const SPAN_TICKS = TICK_HZ / 2;

/** A span that spent less than the mean of them by this share is not pointed at; spans so near to each other are one stretch. */
const LEAST_OF_MEAN = 0.5;
const BRIDGE_SPANS = 3;

/** Life of the parts spent in the run against what the drill may cost. Value: share of a part's life. */
export function markTorchParts(input: MeasureInput): MeasureResult {
  const { samples, drill, trace } = input;
  const allowed = drill.tolerances.spentLifeShare;
  const band = { low: null, high: allowed, unit: 'share' } as const;
  if (trace.ticks === 0) return { mark: 0, band, evidence: [] };
  const { spentLife, xMm, yMm } = samples.columns;
  const spent = spentLife[trace.ticks - 1] - spentLife[0];
  const lost = lossByRatio(spent, allowed, allowed * ZERO_AT_TIMES);
  if (lost === 0) return { mark: 100, band, evidence: [] };
  const found: Evidence[] = [];
  for (let from = 0; from < trace.ticks - 1; from += SPAN_TICKS) {
    const to = from + SPAN_TICKS < trace.ticks ? from + SPAN_TICKS : trace.ticks - 1;
    const here = spentLife[to] - spentLife[from];
    if (here < (LEAST_OF_MEAN * spent * SPAN_TICKS) / trace.ticks) continue;
    const lostMarks = (100 * lost * here) / spent;
    const before = found.at(-1);
    if (before && from + 1 - before.toTick < BRIDGE_SPANS * SPAN_TICKS) {
      before.toTick = to + 1;
      before.value += here;
      before.lostMarks += lostMarks;
      continue;
    }
    const place = { xMm: xMm[from], yMm: yMm[from] };
    found.push({
      fromTick: from + 1,
      toTick: to + 1,
      ...place,
      value: here,
      unit: 'share',
      fault: 'torch-parts.worn',
      lostMarks,
    });
  }
  return { mark: 100 * (1 - lost), band, evidence: mostCostly(found) };
}
