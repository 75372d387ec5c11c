import type { HandPose } from '../../sim-core/index.ts';
import type { HandEvent } from '../input/hand-event.ts';

/** After a halt, what happened longer ago than this was still on its way when the bench was halted, ms. */
const ON_ITS_WAY_MS = 200;

/**
 * Whether something that the hand did starts a clock that stands: it pulls the trigger, moves the torch or sets it moving. To let go of
 * everything, as where the focus goes elsewhere, does neither.
 * @param before the pose before it
 * @param halted the clock ran before: only a fresh movement starts it again
 */
export function startsClock(event: HandEvent, before: HandPose, halted: boolean, nowMs: number): boolean {
  if (event.rate !== null || event.pose.trigger) return true;
  if (halted && nowMs - event.atMs > ON_ITS_WAY_MS) return false;
  const { pose } = event;
  return (['xMm', 'yMm', 'heightMm', 'leanXDeg', 'leanYDeg'] as const).some((part) => pose[part] !== before[part]);
}
