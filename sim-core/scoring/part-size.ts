import { partSide } from '../drill/part-side.ts';
import { abs, clamp, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { readSection } from '../quality/kerf-section.ts';
import { couponKerf } from './coupon-kerf.ts';
import type { FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 at this many times the tolerated distance. */
const ZERO_AT_TIMES = 4;

/** The ends of an open line, and the place where a closed one meets itself, are rounded: left out, mm. */
const END_MM = 3;

/** Pieces of the line from one section to the next, and least share of the sections that must have a face. */
const STRIDE_BINS = 2;
const LEAST_FACES_SHARE = 0.5;

/**
 * Where the part's edge stands, read from the metal, against where a cut on the line would leave it: half the core's own kerf
 * beside the line. Mean along the line without the lead-in; of a closed outline twice that, which is what a calliper reads
 * across it. Value: metal taken from the part, mm; negative = metal left on it.
 */
export function markPartSize(input: MeasureInput): MeasureResult {
  const { trace, drill, geometry, context } = input;
  const closes = drill.finish === 'close';
  const allowed = drill.tolerances.sizeMm;
  const band = { low: -allowed, high: allowed, unit: 'mm' } as const;
  const kerf = couponKerf(drill, context.window);
  if (kerf === null || trace.transferIndex < 0) return { mark: 0, band, evidence: [] };
  const side = partSide(drill, geometry);
  const half = (kerf.topMm + kerf.bottomMm) / 4;
  const bevelTan = tan(drill.intended.bevelDeg * RAD_PER_DEG);
  const bins = trace.binIndex.length;
  const binMm = trace.lengthMm / bins;
  const times = closes ? 2 : 1;
  let sum = 0;
  let read = 0;
  let asked = 0;
  let worst = 0;
  let worstBin = -1;
  for (let bin = 0; bin < bins; bin += STRIDE_BINS) {
    const s = (bin + 0.5) * binMm;
    if (s < drill.leadInMm + END_MM || s > trace.lengthMm - END_MM || trace.binGap[bin] === 1) continue;
    asked++;
    const index = trace.binIndex[bin];
    if (index < 0) continue;
    const taken = takenMm(input, bin, s, index, side, half, bevelTan);
    if (taken === null) continue;
    sum += taken;
    read++;
    if (worstBin < 0 || abs(taken) > abs(worst)) {
      worst = taken;
      worstBin = bin;
    }
  }
  if (read === 0 || read < LEAST_FACES_SHARE * asked) return { mark: 0, band, evidence: [] };
  const value = (times * sum) / read;
  const lost = clamp((abs(value) - allowed) / (allowed * (ZERO_AT_TIMES - 1)), 0, 1);
  if (lost === 0) return { mark: 100, band, evidence: [] };
  const fault: FaultId = value > 0 ? 'part-size.cut-away' : 'part-size.left-on';
  const place = geometry.pointAt((worstBin + 0.5) * binMm);
  const from = trace.departIndex < 0 ? trace.transferIndex : trace.departIndex;
  const to = trace.lastCutIndex < from ? from : trace.lastCutIndex;
  const at = { fromTick: from + 1, toTick: to + 1, xMm: place.xMm, yMm: place.yMm };
  return { mark: 100 * (1 - lost), band, evidence: [{ ...at, value, unit: 'mm', fault, lostMarks: 100 * lost }] };
}

/** How far the part's face stands beyond where it should, into the part, mean over the depth; null where there is no face. */
function takenMm(
  input: MeasureInput,
  bin: number,
  sMm: number,
  index: number,
  side: 1 | -1,
  halfMm: number,
  bevelTan: number,
): number | null {
  const { trace, geometry, context } = input;
  if (trace.binSevered[bin] === 0) return null;
  const middle = { offsetMm: trace.offsetMm[index], leanTan: trace.leftTan[index] };
  const section = readSection(context.metal, geometry.pointAt(sMm), middle);
  const face = side === 1 ? section.left : section.right;
  const { layerMm } = context.metal.grid;
  let sum = 0;
  let layers = 0;
  for (let k = 0; k < face.length; k++) {
    if (Number.isNaN(face[k])) continue;
    sum += side * (face[k] + bevelTan * (k + 0.5) * layerMm);
    layers++;
  }
  return layers > 0 ? sum / layers - halfMm : null;
}
