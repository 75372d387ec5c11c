import { runCoupon } from '../drill/coupon.ts';
import { conditionOfDrill } from '../drill/drill-window.ts';
import type { Drill } from '../drill/schema.ts';
import type { ScoreWindow } from './score-context.ts';

/** Kerf of the core's own coupon, mm. */
export interface CouponKerf {
  topMm: number;
  bottomMm: number;
}

const known = new Map<string, CouponKerf>();

/** The kerf of the drill's metal at mid-window, upright, at 1.5 mm or else at mid-height, which the drawing allows for; null where there is no window. */
export function couponKerf(drill: Drill, window: ScoreWindow): CouponKerf | null {
  const condition = conditionOfDrill(drill);
  const { windowLowMmPerS: low, windowHighMmPerS: high } = window;
  if (condition === null || low === null || high === null) return null;
  const { low: lowest, high: highest } = drill.tolerances.standOffMm;
  const standOffMm = lowest <= 1.5 && highest >= 1.5 ? 1.5 : (lowest + highest) / 2;
  const options = { ...condition, speedMmPerS: (low + high) / 2, standOffMm };
  const key = JSON.stringify(options);
  const before = known.get(key);
  if (before) return before;
  const { topKerfMm, bottomKerfMm } = runCoupon(options);
  const kerf = { topMm: topKerfMm, bottomMm: bottomKerfMm };
  known.set(key, kerf);
  return kerf;
}
