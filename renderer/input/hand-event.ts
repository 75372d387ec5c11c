import type { HandPose } from '../../sim-core/index.ts';
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
}

/** Where a pose with a rate has got to, `elapsedMs` later, inside the limits of the bench. */
export function carryPose(pose: HandPose, rate: HandRate | null, elapsedMs: number, limits: HandLimits): HandPose {
  if (rate === null || elapsedMs <= 0) return { ...pose };
  const seconds = elapsedMs / 1000;
  return clampPose(
    {
      xMm: pose.xMm + rate.xMmPerS * seconds,
      yMm: pose.yMm + rate.yMmPerS * seconds,
      heightMm: pose.heightMm + rate.heightMmPerS * seconds,
      leanXDeg: pose.leanXDeg + rate.leanXDegPerS * seconds,
      leanYDeg: pose.leanYDeg + rate.leanYDegPerS * seconds,
      trigger: pose.trigger,
    },
    limits,
  );
}
