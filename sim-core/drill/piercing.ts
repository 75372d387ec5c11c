import type { MaterialId } from '../materials/material-id.ts';
import type { RigId } from '../run/types.ts';
import { pierceCoupon } from './pierce-coupon.ts';

/** Longest that a pierce may take, s (definition of the design). */
export const LONGEST_PIERCE_S = 5;
const THICKEST_MM = 40;

const known = new Map<string, number>();

/** Greatest thickness, mm, that the rolling method breaks through within 5 s, found by bisection with this core to 0.2 mm. */
export function piercingThicknessMm(material: MaterialId, currentA: number, rig: RigId): number {
  const key = `${material}/${currentA}/${rig}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  let low = 0.5;
  let high = THICKEST_MM;
  while (high - low > 0.2) {
    const middle = (low + high) / 2;
    if (pierceCoupon({ material, thicknessMm: middle, currentA, rig }, 'rolling', LONGEST_PIERCE_S).brokeThrough) low = middle;
    else high = middle;
  }
  known.set(key, low);
  return low;
}
