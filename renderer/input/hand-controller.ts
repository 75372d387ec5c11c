import type { HandPose } from '../../sim-core/index.ts';
import { carryPose, type HandEvent, type HandRate, ROLL_UPRIGHT_DEG_PER_S, STILL } from './hand-event.ts';
import { clampPose, type HandLimits } from './hand-pose.ts';

export type HandDevice = 'mouse' | 'keyboard' | 'gamepad' | 'pen';

/**
 * The one hand that all devices move. Each change leaves as a stamped event; between events the page knows where a held key or
 * stick has carried the torch, by the same rule as the worker.
 */
export interface HandController {
  /** Pose at a moment not before the last event. */
  poseAt(atMs: number): HandPose;
  /** Places some coordinates of the pose, at the moment the device says it happened. */
  place(atMs: number, change: Partial<HandPose>, device: HandDevice): void;
  /** Sets how one device goes on moving the hand; rates of several devices add up. */
  drive(atMs: number, rate: HandRate | null, device: HandDevice): void;
  /** The handle rolls upright by itself, at the pace of a rolling pierce, until any device leans it again. */
  rollUpright(atMs: number, device: HandDevice): void;
  /** Trigger up, all movement stopped. */
  rest(atMs: number): void;
  /** Device that pressed the trigger last, or moved last before any trigger: what the record of the run names. */
  readonly device: HandDevice;
  /** Device that moved the torch over the plate last; null before any did. */
  readonly movedBy: HandDevice | null;
}

function sum(rates: Iterable<HandRate>): HandRate | null {
  const total = { ...STILL };
  let any = false;
  for (const rate of rates) {
    any = true;
    total.xMmPerS += rate.xMmPerS;
    total.yMmPerS += rate.yMmPerS;
    total.heightMmPerS += rate.heightMmPerS;
    total.leanXDegPerS += rate.leanXDegPerS;
    total.leanYDegPerS += rate.leanYDegPerS;
  }
  return any ? total : null;
}

export function createHandController(
  start: HandPose,
  startMs: number,
  limits: HandLimits,
  send: (event: HandEvent) => void,
): HandController {
  let last: HandEvent = { atMs: startMs, pose: clampPose(start, limits), rate: null };
  let device: HandDevice = 'mouse';
  let movedBy: HandDevice | null = null;
  const rates = new Map<HandDevice, HandRate>();
  let rolling = false;

  function poseAt(atMs: number): HandPose {
    return carryPose(last.pose, last.rate, atMs - last.atMs, limits);
  }

  function emit(atMs: number, pose: HandPose): void {
    if (pose.leanXDeg === 0 && pose.leanYDeg === 0) rolling = false;
    const driven = sum(rates.values());
    const rate = rolling ? { ...(driven ?? STILL), uprightDegPerS: ROLL_UPRIGHT_DEG_PER_S } : driven;
    last = { atMs: Math.max(atMs, last.atMs), pose: clampPose(pose, limits), rate };
    send(last);
  }

  return {
    poseAt,
    place(atMs, change, by) {
      const before = poseAt(atMs);
      if (change.trigger === true || (!before.trigger && change.trigger === undefined)) device = by;
      if (change.xMm !== undefined || change.yMm !== undefined) movedBy = by;
      if (change.leanXDeg !== undefined || change.leanYDeg !== undefined) rolling = false;
      emit(atMs, { ...before, ...change });
    },
    drive(atMs, rate, by) {
      const pose = poseAt(atMs);
      if (rate === null) {
        if (!rates.delete(by)) return;
      } else {
        rates.set(by, rate);
        if (rate.xMmPerS !== 0 || rate.yMmPerS !== 0) movedBy = by;
        if (rate.leanXDegPerS !== 0 || rate.leanYDegPerS !== 0) rolling = false;
        if (!pose.trigger) device = by;
      }
      emit(atMs, pose);
    },
    rollUpright(atMs, by) {
      const pose = poseAt(atMs);
      rolling = true;
      if (!pose.trigger) device = by;
      emit(atMs, pose);
    },
    rest(atMs) {
      const pose = poseAt(atMs);
      rolling = false;
      rates.clear();
      emit(atMs, { ...pose, trigger: false });
    },
    get device() {
      return device;
    },
    get movedBy() {
      return movedBy;
    },
  };
}
