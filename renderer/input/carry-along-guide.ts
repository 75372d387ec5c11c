import type { HandPose, PointMm } from '../../sim-core/index.ts';
import type { HandRate } from './hand-event.ts';
import type { HandLimits } from './hand-pose.ts';

/** A guide turns the hand aside this often, ms: often enough that a turn is followed to a hundredth of a millimetre. */
const STEP_MS = 4;

/** The last way that was walked. Worker and page each ask for ever later moments of the same event, so it is walked on from here. */
let walked: { pose: HandPose; rate: HandRate; steps: number; at: PointMm } | null = null;

/**
 * Where a steady push has carried the torch. Without a guide that is a straight line; along a guide the hand is turned aside step
 * by step, so a push to the right goes round a circle as far as it has something to push against. The result depends on pose, rate
 * and time alone.
 */
export function carryAlongGuide(pose: HandPose, rate: HandRate, elapsedMs: number, limits: HandLimits): PointMm {
  const { hold } = limits;
  const moved = (from: PointMm, ms: number): PointMm => ({
    xMm: from.xMm + (rate.xMmPerS * ms) / 1000,
    yMm: from.yMm + (rate.yMmPerS * ms) / 1000,
  });
  if (hold === null || (rate.xMmPerS === 0 && rate.yMmPerS === 0)) return moved(pose, elapsedMs);
  const steps = Math.floor(elapsedMs / STEP_MS);
  const known = walked !== null && walked.pose === pose && walked.rate === rate && walked.steps <= steps ? walked : null;
  let at: PointMm = known?.at ?? pose;
  for (let n = known?.steps ?? 0; n < steps; n += 1) {
    const next = moved(at, STEP_MS);
    at = hold(next.xMm, next.yMm);
  }
  walked = { pose, rate, steps, at };
  return moved(at, elapsedMs - steps * STEP_MS);
}
