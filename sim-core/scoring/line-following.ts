import { abs, clamp } from '../math/elementary.ts';
import { cutBeside } from './cut-beside.ts';
import { judgeTicks, lossOutside, mostCostly } from './judge-ticks.ts';
import { PHASE } from './phase.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 at this many times the tolerated distance. */
const ZERO_AT_TIMES = 2;

/** What is cut away from the line, mm of way: a slip that is no matter, and from where on the mark is 0. */
const BESIDE_RIGHT_MM = 2;
const BESIDE_ZERO_MM = 10;

/**
 * Distance of the torch axis, where it meets the plate, from the line, its lead-in left out; by the millimetre of line. What is
 * cut elsewhere on the plate costs of what is left. Value: left of the cut positive.
 */
export function markLineFollowing(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const allowed = drill.tolerances.offLineMm;
  const { lostShare, evidence, farOffShare } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut && trace.sMm[i] >= drill.leadInMm,
    loss: (i) => lossOutside(abs(trace.offsetMm[i]), 0, allowed, -1, allowed * ZERO_AT_TIMES),
    value: (i) => trace.offsetMm[i],
    fault: () => 'line-following.off-line',
    unit: 'mm',
    byDistance: 1,
  });
  const beside = besideEvidence(input, 1 - lostShare);
  const mark = 100 * (1 - lostShare) - (beside?.lostMarks ?? 0);
  return {
    mark,
    band: { low: -allowed, high: allowed, unit: 'mm' },
    evidence: beside ? mostCostly([...evidence, beside]) : evidence,
    farOffShare,
  };
}

/** @param left share of the mark that the line itself has left */
function besideEvidence(input: MeasureInput, left: number): Evidence | null {
  const { wayMm, from, to, worst } = cutBeside(input);
  const lost = left * clamp((wayMm - BESIDE_RIGHT_MM) / (BESIDE_ZERO_MM - BESIDE_RIGHT_MM), 0, 1);
  if (!(lost > 0)) return null;
  const { xMm, yMm } = input.samples.columns;
  return {
    fromTick: from + 1,
    toTick: to + 1,
    xMm: xMm[worst],
    yMm: yMm[worst],
    value: input.trace.offsetMm[worst],
    unit: 'mm',
    fault: 'line-following.off-line',
    lostMarks: 100 * lost,
  };
}
