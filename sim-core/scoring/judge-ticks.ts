import { abs, clamp, log, round } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import type { Evidence, FaultId, FigureUnit } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Stretches told per measure; the rest is more of the same. */
export const EVIDENCE_LIMIT = 12;

/** Two faults of one kind nearer together than this are one stretch, s. */
const BRIDGE_S = 0.12;

/** What has lost this much is not merely outside, it is far off. */
const FAR_LOSS = 0.5;

/** A stretch that costs less than this many marks is not worth pointing at. */
const LEAST_LOST_MARKS = 0.05;

/** How one measure looks at one tick. `index` = tick - 1. */
export interface TickJudge {
  counts(index: number): boolean;
  /** 0 = right, 1 = as wrong as it gets. */
  loss(index: number): number;
  value(index: number): number;
  /** Asked only where there is a loss. */
  fault(index: number): FaultId;
  unit: FigureUnit;
  /** 0 = every tick counts the same, 1 = every millimetre does. Half by half, neither a pause nor a dash can hide. */
  byDistance: number;
}

/** What a measure found in the ticks that count. */
export interface TickJudgement {
  /** Share of the marks lost, 0 to 1; 1 where no tick counts. */
  lostShare: number;
  /** The stretches that lost them, most costly first. */
  evidence: Evidence[];
  /**
   * Share of the way, by the millimetre, on which half of what can be lost there or more was lost, 0 to 1. Of a line that was gone
   * over more often than the drill asks, no more counts as way than what it asks for: what was wrong is not thinned out by that.
   */
  farOffShare: number;
}

/** Looks at every tick that counts, one by one. */
export function judgeTicks(input: MeasureInput, judge: TickJudge): TickJudgement {
  const { trace } = input;
  let count = 0;
  let wayMm = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (!judge.counts(i)) continue;
    count++;
    wayMm += stepMm(input, i);
  }
  if (count === 0) return { lostShare: 1, evidence: [], farOffShare: 0 };
  const byDistance = wayMm > 0 ? judge.byDistance : 0;
  const bridge = round(BRIDGE_S * TICK_HZ);
  const found: Evidence[] = [];
  let lostShare = 0;
  let farOffMm = 0;
  let open: Evidence | null = null;
  let worst = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (!judge.counts(i)) continue;
    const loss = judge.loss(i);
    if (!(loss > 0)) continue;
    const cost = loss * ((1 - byDistance) / count + (byDistance > 0 ? (byDistance * stepMm(input, i)) / wayMm : 0));
    lostShare += cost;
    if (loss >= FAR_LOSS) farOffMm += stepMm(input, i);
    const fault = judge.fault(i);
    if (!open || open.fault !== fault || i - (open.toTick - 1) > bridge) {
      open = { fromTick: i + 1, toTick: i + 1, xMm: 0, yMm: 0, value: 0, unit: judge.unit, fault, lostMarks: 0 };
      found.push(open);
      worst = -1;
    }
    open.toTick = i + 1;
    open.lostMarks += 100 * cost;
    if (loss > worst) {
      worst = loss;
      open.xMm = input.samples.columns.xMm[i];
      open.yMm = input.samples.columns.yMm[i];
      open.value = judge.value(i);
    }
  }
  const askedMm = trace.lengthMm * input.drill.intended.passes;
  const ofMm = wayMm < askedMm ? wayMm : askedMm;
  const farOffShare = ofMm > 0 ? clamp(farOffMm / ofMm, 0, 1) : 0;
  return { lostShare: lostShare > 1 ? 1 : lostShare, evidence: mostCostly(found), farOffShare };
}

/** Puts the most costly first and drops what is too small to point at. */
export function mostCostly(found: Evidence[]): Evidence[] {
  return found
    .filter((evidence) => evidence.lostMarks >= LEAST_LOST_MARKS)
    .sort((a, b) => b.lostMarks - a.lostMarks || a.fromTick - b.fromTick)
    .slice(0, EVIDENCE_LIMIT);
}

function stepMm(input: MeasureInput, index: number): number {
  const { sMm } = input.trace;
  return index === 0 ? 0 : abs(sMm[index] - sMm[index - 1]);
}

/** 0 inside low..high, rising in a straight line to 1 at `zeroBelow` and `zeroAbove`. */
export function lossOutside(value: number, low: number, high: number, zeroBelow: number, zeroAbove: number): number {
  if (value < low) return value <= zeroBelow ? 1 : (low - value) / (low - zeroBelow);
  if (value > high) return value >= zeroAbove ? 1 : (value - high) / (zeroAbove - high);
  return 0;
}

/** 0 up to `right`, rising to 1 at `zero` by equal steps for equal ratios: for what differs from hand to hand by tens of times. */
export function lossByRatio(value: number, right: number, zero: number): number {
  return value <= right ? 0 : value >= zero ? 1 : log(value / right) / log(zero / right);
}
