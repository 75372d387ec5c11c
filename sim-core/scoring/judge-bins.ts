import { mostCostly } from './judge-ticks.ts';
import type { Evidence, FaultId, FigureUnit } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Two faults of one kind nearer together than so many pieces of the line are one stretch. */
const BRIDGE_BINS = 6;

/** How one measure looks at one piece of the line; the metal as it is at the end of the run. */
export interface BinJudge {
  counts(bin: number): boolean;
  /** 0 = right, 1 = as wrong as it gets. */
  loss(bin: number): number;
  value(bin: number): number;
  /** Asked only where there is a loss. */
  fault(bin: number): FaultId;
  unit: FigureUnit;
}

/**
 * The share of marks lost, 0 to 1 (1 where no piece counts), and the stretches that lost them, most costly first. A stretch
 * is told by the ticks at which the arc last crossed it.
 */
export function judgeBins(input: MeasureInput, judge: BinJudge): { lostShare: number; evidence: Evidence[] } {
  const { trace, geometry } = input;
  const bins = trace.binIndex.length;
  let count = 0;
  for (let bin = 0; bin < bins; bin++) if (judge.counts(bin)) count++;
  if (count === 0) return { lostShare: 1, evidence: [] };
  const found: Evidence[] = [];
  let lostShare = 0;
  let open: Evidence | null = null;
  let lastBin = 0;
  let worst = 0;
  for (let bin = 0; bin < bins; bin++) {
    if (!judge.counts(bin)) continue;
    const loss = judge.loss(bin);
    if (!(loss > 0)) continue;
    lostShare += loss / count;
    const fault = judge.fault(bin);
    const tick = tickOf(input, bin);
    if (!open || open.fault !== fault || bin - lastBin > BRIDGE_BINS) {
      open = { fromTick: tick, toTick: tick, xMm: 0, yMm: 0, value: 0, unit: judge.unit, fault, lostMarks: 0 };
      found.push(open);
      worst = -1;
    }
    lastBin = bin;
    if (tick < open.fromTick) open.fromTick = tick;
    if (tick > open.toTick) open.toTick = tick;
    open.lostMarks += (100 * loss) / count;
    if (loss > worst) {
      worst = loss;
      const place = geometry.pointAt((bin + 0.5) * (trace.lengthMm / bins));
      open.xMm = place.xMm;
      open.yMm = place.yMm;
      open.value = judge.value(bin);
    }
  }
  return { lostShare: lostShare > 1 ? 1 : lostShare, evidence: mostCostly(found) };
}

/** Longest stretch of pieces side by side that count, mm. */
export function longestStretchMm({ trace }: Pick<MeasureInput, 'trace'>, counts: (bin: number) => boolean): number {
  const binMm = trace.lengthMm / trace.binIndex.length;
  let longest = 0;
  let run = 0;
  for (let bin = 0; bin < trace.binIndex.length; bin++) {
    run = counts(bin) ? run + binMm : 0;
    if (run > longest) longest = run;
  }
  return longest;
}

/** Tick at which the arc last crossed a piece; of one that it never crossed, the end of the run. */
function tickOf(input: MeasureInput, bin: number): number {
  const { trace } = input;
  const index = trace.binIndex[bin];
  if (index >= 0) return index + 1;
  return trace.ticks < 1 ? 1 : trace.ticks;
}
