import { type FallenPiece, TICK_HZ } from '../../sim-core/index.ts';

/** Where a severed piece is, as a move from its place in the plate: down, and tipped about a level axis through its centre. */
export interface FallPose {
  dropMm: number;
  tipRad: number;
  /** Direction of that axis from +x toward +y. */
  axisRad: number;
}

/** Depth of the catch tray under the plate. */
export const TRAY_DEPTH_MM = 150;
const GRAVITY_MM_PER_S2 = 9810;
/** The last thread of metal holds one side a moment longer, so that the piece tips as it goes. */
const TIP_RAD_PER_S = 2.6;
const REST_TIP_RAD = 0.1;

/** For the eye only: the core says when a piece came away, not how it tumbles. The same tick always gives the same pose. */
export function fallPose(piece: FallenPiece, tick: number, plateCentreXMm: number, plateCentreYMm: number): FallPose {
  const seconds = Math.max(0, (tick - piece.tick) / TICK_HZ);
  const landsAfterS = Math.sqrt((2 * TRAY_DEPTH_MM) / GRAVITY_MM_PER_S2);
  const axisRad = Math.atan2(piece.centreYMm - plateCentreYMm, piece.centreXMm - plateCentreXMm) + Math.PI / 2;
  if (seconds < landsAfterS) {
    return { dropMm: 0.5 * GRAVITY_MM_PER_S2 * seconds * seconds, tipRad: TIP_RAD_PER_S * seconds, axisRad };
  }
  // It slaps flat on the tray, all but a little.
  const settle = Math.exp(-(seconds - landsAfterS) * 14);
  const atLanding = TIP_RAD_PER_S * landsAfterS;
  return { dropMm: TRAY_DEPTH_MM, tipRad: REST_TIP_RAD + (atLanding - REST_TIP_RAD) * settle, axisRad };
}
