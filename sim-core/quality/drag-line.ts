import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import { QUALITY } from './quality-constants.ts';

/**
 * Drag n, mm: how far the bottom of the front lags its top, told from the spark angle, which is the front's slope over the last
 * 40 % of its depth. A front is steeper above than below, the more so the thicker the plate, so the drag is less than that slope
 * over the whole depth: by a share that was fitted to coupons of this core, on which both are known (within 15 % from 1.5 to
 * 20 mm, three metals). What the handle leans along the travel, `leanTan` (positive = toward it), tilts the whole front.
 */
export function dragFromSparkMm(sparkAngleDeg: number, leanTan: number, thicknessMm: number): number {
  const share = QUALITY.dragShareAt6Mm * Math.sqrt(Math.sqrt(6 / thicknessMm));
  return thicknessMm * (share * (tan(sparkAngleDeg * RAD_PER_DEG) - leanTan) + leanTan);
}
