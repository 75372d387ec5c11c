import type { DrossKind } from '../quality/dross.ts';
import { kerfQuality } from '../quality/kerf-quality.ts';
import { metalOf } from '../quality/metal-reader.ts';
import { stretchQuality } from '../quality/quality-summary.ts';
import type { Samples } from '../run/types.ts';
import { COUPON_WIDTH_MM, type CouponCut, type CouponOptions, STEADY_FROM_MM, STEADY_TO_MM } from './coupon-cut.ts';
import { pathGeometry } from './path-geometry.ts';

/** Estimated cut quality of the steady part of a coupon, as the command line prints it. Null where there is no figure. */
export interface CouponQuality {
  u_mm: number | null;
  uRange: number | null;
  rz5_um: number | null;
  rz5Range: number | null;
  drag_mm: number | null;
  dross: { kind: DrossKind; mm: number };
  heatAffectedMm: number | null;
}

/**
 * Means over the middle half of the travel. The work angle is what was meant: squareness is taken about it. `dragMm` is the drag
 * that was measured on the standing front, which a coupon can do and a run cannot.
 */
export function couponQuality(cut: CouponCut, options: CouponOptions, samples: Samples, dragMm: number): CouponQuality {
  const { material, thicknessMm, workAngleDeg } = options;
  const to = { xMm: cut.lineX(COUPON_WIDTH_MM), yMm: COUPON_WIDTH_MM };
  const geometry = pathGeometry({ start: { xMm: cut.lineX(0), yMm: 0 }, segments: [{ kind: 'line', to }] });
  const { perMm } = kerfQuality(metalOf(cut.simulation), geometry, samples, { material, thicknessMm, bevelDeg: workAngleDeg });
  const placeMm = geometry.lengthMm / perMm.length;
  const cutThicknessMm = thicknessMm * Math.sqrt(1 + cut.tanX * cut.tanX);
  const steady = stretchQuality(perMm, STEADY_FROM_MM, STEADY_TO_MM, placeMm, cutThicknessMm);
  return {
    u_mm: steady.uMm,
    uRange: steady.uRange,
    rz5_um: steady.rz5Um,
    rz5Range: steady.rz5Range,
    drag_mm: steady.dragMm === null ? null : dragMm,
    dross: steady.dross,
    heatAffectedMm: steady.heatAffectedMm,
  };
}
