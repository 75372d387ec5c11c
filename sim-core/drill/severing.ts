import type { MaterialId } from '../materials/material-id.ts';
import type { RigId } from '../run/types.ts';
import { createCouponProbe } from './coupon-probe.ts';

/** Losing speed that a severing thickness must still allow, mm/s (definition of the design). */
const SEVERING_SPEED_MM_PER_S = 2;
/** 'Rated' thickness as a share of the severing thickness (definition of the design). */
export const RATED_SHARE = 0.8;
const THICKEST_MM = 60;

const known = new Map<string, number>();

/**
 * Greatest thickness, mm, that a rig at a current severs from the edge at 2 mm/s, found by bisection with coupons of this
 * core to 0.25 mm.
 */
export function severingThicknessMm(material: MaterialId, currentA: number, rig: RigId): number {
  const key = `${material}/${currentA}/${rig}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  const severs = (thicknessMm: number): boolean =>
    createCouponProbe({ material, thicknessMm, currentA, rig }).cut(SEVERING_SPEED_MM_PER_S, false).complete;
  let low = 0.5;
  let high = THICKEST_MM;
  while (high - low > 0.25) {
    const middle = (low + high) / 2;
    if (severs(middle)) low = middle;
    else high = middle;
  }
  known.set(key, low);
  return low;
}
