import type { HandPose } from '../../sim-core/index.ts';
import { carryPose, type HandEvent } from '../input/hand-event.ts';
import { clampPose, type HandLimits } from '../input/hand-pose.ts';

/**
 * A pointer at rest sends nothing, so two events far apart in time do not mean a slow glide between them:
 * the first place is held, and the way to the second is covered in the last stretch of this length.
 */
const GLIDE_MS = 24;

/** Events nearer together than this belong to one movement, however slowly a busy machine delivers them. */
export const ONE_MOVEMENT_MS = 150;

/** A late event is replayed as a movement, not as a jump, over at most this long. */
const LATE_SPREAD_MS = 60;

export interface HandTrack {
  /** Adds an event. One that is stamped before the last pose asked for is played from that moment on. */
  push(event: HandEvent): void;
  /** Pose at a moment; moments must not go backwards. */
  poseAt(atMs: number): HandPose;
  /** Trigger released and all movement stopped, from now on. */
  rest(atMs: number): void;
}

function between(from: HandPose, to: HandPose, share: number): HandPose {
  return {
    xMm: from.xMm + (to.xMm - from.xMm) * share,
    yMm: from.yMm + (to.yMm - from.yMm) * share,
    heightMm: from.heightMm + (to.heightMm - from.heightMm) * share,
    leanXDeg: from.leanXDeg + (to.leanXDeg - from.leanXDeg) * share,
    leanYDeg: from.leanYDeg + (to.leanYDeg - from.leanYDeg) * share,
    trigger: from.trigger,
  };
}

interface WaitingEvent extends HandEvent {
  /** Until this moment the earlier pose is held. */
  glideFromMs: number;
}

/**
 * Turns stamped events into the pose of every tick. Pure of any clock: the worker asks with tick times, tests with their own.
 */
export function createHandTrack(start: HandPose, startMs: number, limits: HandLimits): HandTrack {
  let current: HandEvent = { atMs: startMs, pose: clampPose(start, limits), rate: null };
  let askedMs = startMs;
  const waiting: WaitingEvent[] = [];

  function poseAt(atMs: number): HandPose {
    askedMs = Math.max(askedMs, atMs);
    while (waiting.length > 0 && (waiting[0] as HandEvent).atMs <= askedMs) current = waiting.shift() as HandEvent;
    if (current.rate !== null) return carryPose(current.pose, current.rate, askedMs - current.atMs, limits);
    const next = waiting[0];
    if (next === undefined || askedMs <= next.glideFromMs) return { ...current.pose };
    return between(current.pose, next.pose, (askedMs - next.glideFromMs) / (next.atMs - next.glideFromMs));
  }

  return {
    push(event) {
      const pose = clampPose(event.pose, limits);
      const before = waiting.at(-1) ?? current;
      let atMs = Math.max(event.atMs, before.atMs);
      let glideFromMs = atMs - before.atMs <= ONE_MOVEMENT_MS ? before.atMs : atMs - GLIDE_MS;
      if (atMs < askedMs) {
        // Its moment has been simulated already. A rate or a trigger acts at once; a distance is walked, not jumped.
        const walked = event.rate === null && pose.trigger === before.pose.trigger;
        glideFromMs = askedMs;
        atMs = walked ? askedMs + Math.min(askedMs - atMs, LATE_SPREAD_MS) : askedMs;
      }
      waiting.push({ atMs, pose, rate: event.rate, glideFromMs });
    },
    poseAt,
    rest(atMs) {
      const pose = poseAt(atMs);
      waiting.length = 0;
      current = { atMs: askedMs, pose: { ...pose, trigger: false }, rate: null };
    },
  };
}
