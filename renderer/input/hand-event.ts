import type { HandPose } from '../../sim-core/index.ts';
import { carryAlongGuide } from './carry-along-guide.ts';
import { clampPose, type HandLimits } from './hand-pose.ts';

/**
 * One thing that the hand did, stamped with the moment it happened (ms, `event.timeStamp` of the page).
 * `rate` is how the pose goes on changing by itself until the next event: a held key or a tilted stick; null for a pointer,
 * which tells where it is but not where it goes.
 */
export interface HandEvent {
  atMs: number;
  pose: HandPose;
  rate: HandRate | null;
}

/** mm/s and deg/s. */
export interface HandRate {
  xMmPerS: number;
  yMmPerS: number;
  heightMmPerS: number;
  leanXDegPerS: number;
  leanYDegPerS: number;
  /** The handle comes back to upright by this much a second, and stays there; 0 = it is left as it is. */
  uprightDegPerS: number;
}

/** A lean of 45 degrees, as a rolling pierce begins, is upright again in two seconds. */
export const ROLL_UPRIGHT_DEG_PER_S = 22.5;

export const STILL: HandRate = {
  xMmPerS: 0,
  yMmPerS: 0,
  heightMmPerS: 0,
  leanXDegPerS: 0,
  leanYDegPerS: 0,
  uprightDegPerS: 0,
};

export function sameRate(a: HandRate, b: HandRate): boolean {
  return (Object.keys(STILL) as (keyof HandRate)[]).every((part) => a[part] === b[part]);
}

/** Where a pose with a rate has got to, `elapsedMs` later, inside the limits of the bench. */
export function carryPose(pose: HandPose, rate: HandRate | null, elapsedMs: number, limits: HandLimits): HandPose {
  if (rate === null || elapsedMs <= 0) return { ...pose };
  const seconds = elapsedMs / 1000;
  const leanXDeg = pose.leanXDeg + rate.leanXDegPerS * seconds;
  const leanYDeg = pose.leanYDeg + rate.leanYDegPerS * seconds;
  const leanDeg = Math.hypot(leanXDeg, leanYDeg);
  const leftDeg = Math.max(0, leanDeg - rate.uprightDegPerS * seconds);
  const kept = leftDeg === 0 ? 0 : leftDeg / leanDeg;
  return clampPose(
    {
      ...carryAlongGuide(pose, rate, elapsedMs, limits),
      heightMm: pose.heightMm + rate.heightMmPerS * seconds,
      // Adding nothing makes a zero of either sign a plain one.
      leanXDeg: leanXDeg * kept + 0,
      leanYDeg: leanYDeg * kept + 0,
      trigger: pose.trigger,
    },
    limits,
  );
}
