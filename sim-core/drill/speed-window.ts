import { clamp } from '../math/elementary.ts';
import { CORE_VERSION } from '../run/types.ts';
import { type CouponProbe, createCouponProbe, type ProbedCoupon } from './coupon-probe.ts';
import type { CutCondition } from './cut-condition.ts';

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
/** Speeds looked at, mm/s: slower is standing still, faster no hand goes. */
const SLOWEST_MM_PER_S = 0.5;
const FASTEST_MM_PER_S = 800;
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
  const probe = createCouponProbe(condition);
  const { edgeDwellS } = probe;
  if (edgeDwellS === null) return nothing('The arc does not get through the edge within 10 s.');
  const isComplete = (speedMmPerS: number): boolean => probe.cut(speedMmPerS, false).complete;
  let keeps = SLOWEST_MM_PER_S * 4;
  if (!isComplete(keeps)) keeps = SLOWEST_MM_PER_S;
  if (!isComplete(keeps)) return { ...nothing('The cut is lost at every speed.'), edgeDwellS };
  let loses = keeps * 2;
  while (loses < FASTEST_MM_PER_S && isComplete(loses)) {
    keeps = loses;
    loses *= 2;
  }
  const losing = bisect(keeps, loses, (speed) => !isComplete(speed));
  const low = crossing(probe, SLOWEST_MM_PER_S, losing, SPARK_BAND_DEG.low, (result) => angleOf(result) >= SPARK_BAND_DEG.low);
  const high = crossing(
    probe,
    low,
    losing,
    SPARK_BAND_DEG.high,
    (result) => !result.complete || angleOf(result) > SPARK_BAND_DEG.high,
  );
  const best = probe.cut(low * (1 + PRECISION), true);
  if (!best.complete || (best.sparkAngleDeg ?? 0) < SPARK_BAND_DEG.low - 0.5) {
    return {
      ...nothing(`The spark angle does not reach ${SPARK_BAND_DEG.low} deg before the cut is lost.`),
      losingSpeedMmPerS: losing,
      edgeDwellS,
    };
  }
  return { windowLowMmPerS: low, windowHighMmPerS: high, losingSpeedMmPerS: losing, edgeDwellS };
}

/** A complete cut without a stream to read is so slow that the arc keeps letting go: as far below the band as can be. */
function angleOf(result: ProbedCoupon): number {
  return result.sparkAngleDeg ?? (result.complete ? 0 : 90);
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

/**
 * The same, where `beyond` comes with the spark angle passing `angleDeg`: coupons already cut narrow the bracket, and the
 * next speed is where a straight line between the bracket's angles passes it, set off to the far side by less than the
 * precision, so that the bracket closes from both ends. Every third speed halves the bracket, whatever the angles say.
 */
function crossing(
  probe: CouponProbe,
  below: number,
  above: number,
  angleDeg: number,
  beyond: (result: ProbedCoupon) => boolean,
): number {
  let low = below;
  let high = above;
  for (const speed of probe.angleSpeeds()) {
    if (speed > low && speed < high && beyond(probe.cut(speed, true))) high = speed;
  }
  for (const speed of probe.angleSpeeds()) if (speed > low && speed < high) low = speed;
  for (let tries = 1; high - low > PRECISION * high; tries++) {
    let middle = (low + high) / 2;
    const lowDeg = probe.angleAt(low);
    const highDeg = probe.angleAt(high);
    if (tries % 3 !== 0 && lowDeg !== null && highDeg !== null && lowDeg < angleDeg && highDeg > angleDeg) {
      const straight = low + ((angleDeg - lowDeg) / (highDeg - lowDeg)) * (high - low);
      const aside = 0.4 * PRECISION * high;
      middle = clamp(straight + (straight < middle ? aside : -aside), low + 0.3 * aside, high - 0.3 * aside);
    }
    if (beyond(probe.cut(middle, true))) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
