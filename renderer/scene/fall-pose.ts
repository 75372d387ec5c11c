import { type Object3D, Quaternion, Vector3 } from 'three';
import { type FallenPiece, TICK_HZ } from '../../sim-core/index.ts';

/** Where a severed piece is, as a move from its place in the plate: down, and tipped about a level axis through its centre. */
export interface FallPose {
  dropMm: number;
  tipRad: number;
  /** Direction of that axis from +x toward +y. */
  axisRad: number;
}

/** A pose with the centre that it is about. */
export interface PiecePose extends FallPose {
  centreXMm: number;
  centreYMm: number;
}

/** Depth of the catch tray under the plate. */
export const TRAY_DEPTH_MM = 150;
const GRAVITY_MM_PER_S2 = 9810;
/** The last thread of metal holds one side a moment longer, so that the piece tips as it goes. */
const TIP_RAD_PER_S = 2.6;
const REST_TIP_RAD = 0.1;

/**
 * For the eye only: the core says when a piece came away, not how it tumbles. The same tick and start always give the same pose. A
 * piece that was not seen hanging, as after a jump in time, starts level.
 */
export function fallPose(
  piece: FallenPiece,
  tick: number,
  plateCentreXMm: number,
  plateCentreYMm: number,
  start: FallPose | null = null,
): FallPose {
  const seconds = Math.max(0, (tick - piece.tick) / TICK_HZ);
  const landsAfterS = Math.sqrt((2 * TRAY_DEPTH_MM) / GRAVITY_MM_PER_S2);
  const axisRad = start?.axisRad ?? Math.atan2(piece.centreYMm - plateCentreYMm, piece.centreXMm - plateCentreXMm) + Math.PI / 2;
  if (seconds < landsAfterS) {
    const fallenMm = (start?.dropMm ?? 0) + 0.5 * GRAVITY_MM_PER_S2 * seconds * seconds;
    return { dropMm: Math.min(TRAY_DEPTH_MM, fallenMm), tipRad: (start?.tipRad ?? 0) + TIP_RAD_PER_S * seconds, axisRad };
  }
  // It slaps flat on the tray, all but a little.
  const settle = Math.exp(-(seconds - landsAfterS) * 14);
  const atLanding = (start?.tipRad ?? 0) + TIP_RAD_PER_S * landsAfterS;
  return { dropMm: TRAY_DEPTH_MM, tipRad: REST_TIP_RAD + (atLanding - REST_TIP_RAD) * settle, axisRad };
}

const turn = new Quaternion();
const axis = new Vector3();
const offset = new Vector3();

/** Moves what stood at a place of the plate with a piece that is turned about its own centre: p -> centre + turn (p - centre) - drop. */
export function placeWithPiece(thing: Object3D, pose: PiecePose, xMm: number, yMm: number): void {
  turn.setFromAxisAngle(axis.set(Math.cos(pose.axisRad), Math.sin(pose.axisRad), 0), pose.tipRad);
  offset.set(xMm - pose.centreXMm, yMm - pose.centreYMm, 0).applyQuaternion(turn);
  thing.position.set(pose.centreXMm + offset.x, pose.centreYMm + offset.y, offset.z - pose.dropMm);
  thing.quaternion.premultiply(turn);
}
