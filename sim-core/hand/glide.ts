import { TICK_HZ } from '../run/types.ts';

/** Greatest acceleration of a hand that guides a torch, mm/s2. Design default, well inside what an arm can do. */
export const HAND_ACCELERATION_MM_PER_S2 = 400;

/** Longest jump of the speed's direction that a hand makes within a few ticks, mm/s. */
const CORNER_STEP_MM_PER_S = HAND_ACCELERATION_MM_PER_S2 * 0.02;

/** A movement over a distance, speed kept within what the hand can do. */
export interface Glide {
  lengthMm: number;
  doneMm: number;
  speedMmPerS: number;
  targetMmPerS: number;
  /** Speed with which it may end. */
  endMmPerS: number;
  /** Places on the way with a lower speed of their own, such as corners, in rising order. */
  slowAt: readonly { atMm: number; mmPerS: number }[];
}

/** Moves on by one tick. True once the end is reached. */
export function advanceGlide(glide: Glide): boolean {
  const step = HAND_ACCELERATION_MM_PER_S2 / TICK_HZ;
  let wanted = glide.targetMmPerS;
  wanted = cappedBefore(wanted, glide.lengthMm - glide.doneMm, glide.endMmPerS);
  for (const slow of glide.slowAt) {
    const ahead = slow.atMm - glide.doneMm;
    if (ahead >= 0) wanted = cappedBefore(wanted, ahead, slow.mmPerS);
  }
  const change = wanted - glide.speedMmPerS;
  glide.speedMmPerS += change > step ? step : change < -step ? -step : change;
  const move = glide.speedMmPerS / TICK_HZ;
  // A last crawl would never arrive: what is left after this tick and cannot be seen is taken with it.
  if (glide.doneMm + move >= glide.lengthMm - 0.005) {
    glide.doneMm = glide.lengthMm;
    return true;
  }
  glide.doneMm += move;
  return false;
}

/** Speed at which a corner of so many radians can be taken. */
export function cornerSpeedMmPerS(sineOfHalfTurn: number): number {
  return CORNER_STEP_MM_PER_S / (2 * sineOfHalfTurn);
}

/** The speed from which the hand can still come down to `thenMmPerS` over `distanceMm`. */
function cappedBefore(wanted: number, distanceMm: number, thenMmPerS: number): number {
  const cap = Math.sqrt(thenMmPerS * thenMmPerS + 2 * HAND_ACCELERATION_MM_PER_S2 * distanceMm);
  // Never quite at rest before it has arrived.
  const moving = cap < 0.5 ? 0.5 : cap;
  return moving < wanted ? moving : wanted;
}
