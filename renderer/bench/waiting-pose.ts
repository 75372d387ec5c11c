import { type Drill, type HandPose, pathGeometry } from '../../sim-core/index.ts';
import type { HandLimits } from '../input/hand-pose.ts';

/** Where the torch waits: back from the start of the line, and well above the plate. */
const WAIT_BACK_MM = 20;
const WAIT_HEIGHT_MM = 8;

/**
 * Where the torch is before the hand takes it. At a guide that begins inside the plate it waits at the start itself: a guide lets it
 * come there only along the way that is cut, and from behind a stick or an arrow key would push in vain.
 */
export function waitingPose({ path, start }: Drill, { hold }: HandLimits): HandPose {
  const { xMm, yMm } = pathGeometry(path).pointAt(hold !== null && start !== 'edge' ? 0 : -WAIT_BACK_MM);
  return { xMm, yMm, heightMm: WAIT_HEIGHT_MM, leanXDeg: 0, leanYDeg: 0, trigger: false };
}
