import type { MaterialId } from '../materials/material-id.ts';
import { CORE_VERSION, type RigId } from '../run/types.ts';
import { type CouponResult, runCoupon } from './coupon.ts';

/** A metal on a rig at a current. */
export interface CutCondition {
  material: MaterialId;
  thicknessMm: number;
  currentA: number;
  rig: RigId;
}

/** Travel speeds at which the cut is complete and the spark angle in its band; nulls and a reason where there are none. */
export interface SpeedWindow {
  windowLowMmPerS: number | null;
  windowHighMmPerS: number | null;
  losingSpeedMmPerS: number | null;
  edgeDwellS: number | null;
  reason?: string;
}

/** Spark angle band, deg trailing. Requirement of the product; common practice, no published source. */
export const SPARK_BAND_DEG = { low: 15, high: 30 } as const;
/** Severed share of the path under which a cut counts as lost. */
export const COMPLETE_SHARE = 0.97;
/** Speeds looked at, mm/s: slower is standing still, faster no hand goes. */
const SLOWEST_MM_PER_S = 0.5;
const FASTEST_MM_PER_S = 400;
/** Width of the search's last bracket, as a share of the speed. */
const PRECISION = 0.01;

const known = new Map<string, SpeedWindow>();

/** Key under which a window may be kept elsewhere; names the core, because another core has another window. */
export function speedWindowKey(condition: CutCondition): string {
  return [CORE_VERSION, condition.material, condition.thicknessMm, condition.currentA, condition.rig].join('/');
}

/** Puts in a window found earlier by this same core, so that it need not be searched again. */
export function primeSpeedWindow(condition: CutCondition, window: SpeedWindow): void {
  known.set(speedWindowKey(condition), window);
}

/** Searches the window with coupons of this same core, by bisection; remembered while the program runs. */
export function speedWindow(condition: CutCondition): SpeedWindow {
  const key = speedWindowKey(condition);
  const found = known.get(key);
  if (found) return found;
  const window = search(condition);
  known.set(key, window);
  return window;
}

function search(condition: CutCondition): SpeedWindow {
  const cut = (speedMmPerS: number): CouponResult => runCoupon({ ...condition, speedMmPerS });
  const slowest = cut(SLOWEST_MM_PER_S * 4);
  if (slowest.edgeDwellS === null) return nothing('The arc does not get through the edge within 10 s.');
  const complete = (result: CouponResult): boolean => result.severedFraction >= COMPLETE_SHARE;
  const crawl = complete(slowest) ? slowest : cut(SLOWEST_MM_PER_S);
  if (!complete(crawl)) return { ...nothing('The cut is lost at every speed.'), edgeDwellS: slowest.edgeDwellS };

  let keeps = complete(slowest) ? SLOWEST_MM_PER_S * 4 : SLOWEST_MM_PER_S;
  let loses = keeps * 2;
  while (loses < FASTEST_MM_PER_S && complete(cut(loses))) {
    keeps = loses;
    loses *= 2;
  }
  const losing = bisect(keeps, loses, (speed) => !complete(cut(speed)));
  // A complete cut without a stream to read is so slow that the arc keeps letting go: as far below the band as can be.
  const angle = (result: CouponResult): number => result.sparkAngleDeg ?? (complete(result) ? 0 : 90);
  const low = bisect(SLOWEST_MM_PER_S, losing, (speed) => angle(cut(speed)) >= SPARK_BAND_DEG.low);
  const high = bisect(low, losing, (speed) => {
    const result = cut(speed);
    return !complete(result) || angle(result) > SPARK_BAND_DEG.high;
  });
  const best = cut(low * (1 + PRECISION));
  if (!complete(best) || (best.sparkAngleDeg ?? 0) < SPARK_BAND_DEG.low - 0.5) {
    return {
      ...nothing(`The spark angle does not reach ${SPARK_BAND_DEG.low} deg before the cut is lost.`),
      losingSpeedMmPerS: losing,
      edgeDwellS: slowest.edgeDwellS,
    };
  }
  return { windowLowMmPerS: low, windowHighMmPerS: high, losingSpeedMmPerS: losing, edgeDwellS: slowest.edgeDwellS };
}

function nothing(reason: string): SpeedWindow {
  return { windowLowMmPerS: null, windowHighMmPerS: null, losingSpeedMmPerS: null, edgeDwellS: null, reason };
}

/** Lowest speed at which `beyond` holds, between one where it does not and one where it does. */
function bisect(below: number, above: number, beyond: (speedMmPerS: number) => boolean): number {
  let low = below;
  let high = above;
  while (high - low > PRECISION * high) {
    const middle = (low + high) / 2;
    if (beyond(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
