import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import type { Ejecta, Sample } from '../run/types.ts';
import { followBlowback, type ThrownLobe } from './blowback.ts';
import type { JetOutcome, JetPose } from './jet.ts';
import { MODEL } from './model-constants.ts';

/** The view's ejecta plus the dose of this tick: heat of melt that arrives on the torch front, mJ. */
export interface EjectaState extends Ejecta {
  blowbackMj: number;
}

export function createEjecta(): EjectaState {
  return {
    underRateMm3PerS: 0,
    underXMm: 0,
    underYMm: 0,
    underDirX: 0,
    underDirY: 0,
    underDirZ: -1,
    topRateMm3PerS: 0,
    topXMm: 0,
    topYMm: 0,
    topZMm: 0,
    topDirX: 0,
    topDirY: 0,
    topDirZ: 1,
    blowbackMj: 0,
  };
}

/** Reused; nothing in it outlives a tick. */
const thrown: ThrownLobe = { x: 0, y: 0, z: 1, fromX: 0, fromY: 0, widthsDeep: 0, onTorch: 0 };

/**
 * Where thrown metal goes. Below: along the front's slope in the plane of travel, along the axis's lean across it.
 * Above: the jet mirrored at the floor around it and drawn toward the mouth of the hole, as a wide lobe, of which the torch's
 * front catches what flies into it.
 */
export function followEjecta(
  out: EjectaState,
  jet: JetOutcome,
  pose: JetPose,
  sample: Readonly<Sample>,
  thicknessMm: number,
  tickS: number,
): void {
  const { leanTanX, leanTanY } = pose;
  const footX = pose.xMm - leanTanX * pose.heightMm;
  const footY = pose.yMm - leanTanY * pose.heightMm;
  out.underRateMm3PerS = jet.underMm3 / tickS;
  if (out.underRateMm3PerS > 0) aimUnder(out, pose, sample, thicknessMm);
  out.topRateMm3PerS = jet.topMm3 / tickS;
  out.blowbackMj = 0;
  if (out.topRateMm3PerS <= 0) return;
  const lengthening = Math.sqrt(1 + leanTanX * leanTanX + leanTanY * leanTanY);
  // The floor right under the jet is less steep than the ground around it.
  const nx = MODEL.floorShare * jet.floorSlopeX;
  const ny = MODEL.floorShare * jet.floorSlopeY;
  const steep = Math.sqrt(1 + nx * nx + ny * ny);
  // d is the jet's direction, n the floor's normal (depth grows along (nx, ny), so the floor faces that way).
  const dx = -leanTanX / lengthening;
  const dy = -leanTanY / lengthening;
  const dz = -1 / lengthening;
  const into = (dx * nx + dy * ny + dz) / steep;
  // A mouth that lies to one side draws the stream that way, the more the shallower the hole.
  const rise = jet.meanDepthMm > jet.holeWidthMm / 2 ? jet.meanDepthMm : jet.holeWidthMm / 2;
  const rx = dx - (2 * into * nx) / steep + jet.mouthX / rise;
  const ry = dy - (2 * into * ny) / steep + jet.mouthY / rise;
  let rz = dz - (2 * into) / steep;
  if (rz < 0.2) rz = 0.2;
  const length = Math.sqrt(rx * rx + ry * ry + rz * rz);
  out.topDirX = rx / length;
  out.topDirY = ry / length;
  out.topDirZ = rz / length;
  out.topXMm = footX + jet.mouthX;
  out.topYMm = footY + jet.mouthY;
  out.topZMm = 0;
  thrown.fromX = jet.mouthX;
  thrown.fromY = jet.mouthY;
  thrown.x = out.topDirX;
  thrown.y = out.topDirY;
  thrown.z = out.topDirZ;
  thrown.widthsDeep = jet.meanDepthMm / jet.holeWidthMm;
  followBlowback(thrown, pose);
  const topJ = jet.removedJ * (jet.topMm3 / (jet.topMm3 + jet.underMm3));
  out.blowbackMj = topJ * thrown.onTorch * 1000;
}

/** Where metal leaves the underside, and which way. */
function aimUnder(out: EjectaState, pose: JetPose, sample: Readonly<Sample>, thicknessMm: number): void {
  const { sparkAngleDeg } = sample;
  const { leanTanX, leanTanY, headingX, headingY } = pose;
  const footX = pose.xMm - leanTanX * pose.heightMm;
  const footY = pose.yMm - leanTanY * pose.heightMm;
  const leanAlong = leanTanX * headingX + leanTanY * headingY;
  const trail = Number.isNaN(sparkAngleDeg) ? leanAlong : tan(sparkAngleDeg * RAD_PER_DEG);
  const side = leanTanY * headingX - leanTanX * headingY;
  const dx = -trail * headingX + side * headingY;
  const dy = -trail * headingY - side * headingX;
  const length = Math.sqrt(dx * dx + dy * dy + 1);
  out.underDirX = dx / length;
  out.underDirY = dy / length;
  out.underDirZ = -1 / length;
  // The axis leans already: what the front lags behind it is the rest.
  const lagMm = 0.5 * (trail - leanAlong) * thicknessMm;
  out.underXMm = footX - leanTanX * thicknessMm - lagMm * headingX;
  out.underYMm = footY - leanTanY * thicknessMm - lagMm * headingY;
}
