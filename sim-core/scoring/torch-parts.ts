import { clamp } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import { mostCostly } from './judge-ticks.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 where this many times the life was spent that the drill may cost. */
const ZERO_AT_TIMES = 4;

/** The run is looked at in spans of so many ticks. */
const SPAN_TICKS = TICK_HZ / 2;

/** A span that spent less than this share of all that was spent is not worth pointing at. */
const LEAST_SPAN_SHARE = 0.1;

/** Life of the parts spent in the run against what the drill may cost. Value: share of a part's life. */
export function markTorchParts(input: MeasureInput): MeasureResult {
  const { samples, drill, trace } = input;
  const allowed = drill.tolerances.spentLifeShare;
  const band = { low: null, high: allowed, unit: 'share' } as const;
  if (trace.ticks === 0) return { mark: 0, band, evidence: [] };
  const { spentLife, xMm, yMm } = samples.columns;
  const spent = spentLife[trace.ticks - 1] - spentLife[0];
  const lost = clamp((spent - allowed) / (allowed * (ZERO_AT_TIMES - 1)), 0, 1);
  if (lost === 0) return { mark: 100, band, evidence: [] };
  const found: Evidence[] = [];
  for (let from = 0; from < trace.ticks - 1; from += SPAN_TICKS) {
    const to = from + SPAN_TICKS < trace.ticks ? from + SPAN_TICKS : trace.ticks - 1;
    const here = spentLife[to] - spentLife[from];
    if (here < LEAST_SPAN_SHARE * spent) continue;
    const lostMarks = (100 * lost * here) / spent;
    const before = found.at(-1);
    if (before && before.toTick === from + 1) {
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
