import { cos, sin } from '../math/elementary.ts';
import { topDepthMm } from '../quality/top-depth.ts';
import { judgeBins, longestStretchMm } from './judge-bins.ts';
import { lossOutside } from './judge-ticks.ts';
import type { FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** The groove runs in and out at its ends: this much is not judged there, mm, and at most this share of the line. */
const END_MM = 6;
const END_SHARE = 0.15;

/** Marks reach 0 this far below and above the band asked for, as shares of its own ends: a pace as far off goes less far below than above. */
const ZERO_BELOW_SHARE = 0.5;
const ZERO_ABOVE_SHARE = 0.75;

/** A place is inside the groove where it is deeper than this share of the groove there. */
const RIM_SHARE = 0.25;
const WIDTH_STEP_MM = 0.25;

/** True for the pieces of the line whose groove is judged: its ends left out. */
export function grooveCounts(input: MeasureInput, bin: number): boolean {
  const { lengthMm, binIndex } = input.trace;
  const s = (bin + 0.5) * (lengthMm / binIndex.length);
  const end = END_MM < END_SHARE * lengthMm ? END_MM : END_SHARE * lengthMm;
  return s >= end && s <= lengthMm - end;
}

/** Depth of the groove along the line at the end of the run, and its width where the drill asks for one. Value: depth or width, mm. */
export function markGrooveDepth(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const { grooveDepthMm: depth, grooveWidthMm: width } = drill.intended;
  if (depth === null) return { mark: 0, band: null, evidence: [] };
  const widths = width === null ? null : new Float64Array(trace.binIndex.length).fill(Number.NaN);
  const widthAt = (bin: number): number => {
    if (widths === null) return 0;
    if (Number.isNaN(widths[bin])) widths[bin] = widthMm(input, bin);
    return widths[bin];
  };
  const outside = (value: number, band: { low: number; high: number }): number =>
    lossOutside(value, band.low, band.high, band.low * (1 - ZERO_BELOW_SHARE), band.high * (1 + ZERO_ABOVE_SHARE));
  const depthLoss = (bin: number): number => outside(trace.binGrooveMm[bin], depth);
  const widthLoss = (bin: number): number => (width === null ? 0 : outside(widthAt(bin), width));
  const { lostShare, evidence } = judgeBins(input, {
    counts: (bin) => grooveCounts(input, bin),
    loss: (bin) => (widthLoss(bin) > depthLoss(bin) ? widthLoss(bin) : depthLoss(bin)),
    value: (bin) => (widthLoss(bin) > depthLoss(bin) ? widthAt(bin) : trace.binGrooveMm[bin]),
    fault: (bin): FaultId => {
      if (width !== null && widthLoss(bin) > depthLoss(bin)) {
        return widthAt(bin) < width.low ? 'groove-depth.narrow' : 'groove-depth.wide';
      }
      return trace.binGrooveMm[bin] < depth.low ? 'groove-depth.shallow' : 'groove-depth.deep';
    },
    unit: 'mm',
  });
  return { mark: 100 * (1 - lostShare), band: { low: depth.low, high: depth.high, unit: 'mm' }, evidence };
}

/** Width across the line, at the top surface, of what is deeper than a share of the groove there. */
function widthMm(input: MeasureInput, bin: number): number {
  const { trace, geometry, context, drill } = input;
  const deepest = trace.binGrooveMm[bin];
  if (deepest <= 0) return 0;
  const place = geometry.pointAt((bin + 0.5) * (trace.lengthMm / trace.binIndex.length));
  const c = cos(place.headingRad);
  const s = sin(place.headingRad);
  const reach = drill.intended.grooveWidthMm ? drill.intended.grooveWidthMm.high * 1.5 : 0;
  let width = 0;
  for (let aside = -reach; aside <= reach; aside += WIDTH_STEP_MM) {
    const depth = topDepthMm(context.metal, place.xMm - aside * s, place.yMm + aside * c);
    if (depth > RIM_SHARE * deepest) width += WIDTH_STEP_MM;
  }
  return width;
}

/** Longest stretch of the line, mm, on which there is less than half of the least depth asked for; 0 for a drill without a groove. */
export function longestUngroovedMm(input: MeasureInput): number {
  const { trace, drill } = input;
  const depth = drill.intended.grooveDepthMm;
  if (depth === null) return 0;
  return longestStretchMm(input, (bin) => grooveCounts(input, bin) && trace.binGrooveMm[bin] < depth.low / 2);
}
