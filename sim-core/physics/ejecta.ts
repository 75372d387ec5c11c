import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import type { Ejecta, Sample } from '../run/types.ts';
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

/**
 * Where thrown metal goes. Below: along the front's slope in the plane of travel, along the axis's lean across it.
 * Above: the jet mirrored at the floor around it, as a wide lobe; the torch front catches its share by solid angle.
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
  const nx = jet.floorSlopeX;
  const ny = jet.floorSlopeY;
  const steep = Math.sqrt(1 + nx * nx + ny * ny);
  // d is the jet's direction, n the floor's normal (depth grows along (nx, ny), so the floor faces that way).
  const dx = -leanTanX / lengthening;
  const dy = -leanTanY / lengthening;
  const dz = -1 / lengthening;
  const into = (dx * nx + dy * ny + dz) / steep;
  const rx = dx - (2 * into * nx) / steep;
  const ry = dy - (2 * into * ny) / steep;
  let rz = dz - (2 * into) / steep;
  if (rz < 0.2) rz = 0.2;
  const length = Math.sqrt(rx * rx + ry * ry + rz * rz);
  out.topDirX = rx / length;
  out.topDirY = ry / length;
  out.topDirZ = rz / length;
  out.topXMm = footX - leanTanX * jet.meanDepthMm;
  out.topYMm = footY - leanTanY * jet.meanDepthMm;
  out.topZMm = -jet.meanDepthMm;
  const toward = -(out.topDirX * dx + out.topDirY * dy + out.topDirZ * dz);
  const half = (1 + toward) / 2;
  const lobe = half * half * half * half * half * half;
  const away = pose.heightMm * lengthening + jet.meanDepthMm;
  const radius = MODEL.torchFrontRadiusMm;
  const solidAngleShare = 1 - away / Math.sqrt(away * away + radius * radius);
  const topJ = jet.removedJ * (jet.topMm3 / (jet.topMm3 + jet.underMm3));
  out.blowbackMj = topJ * lobe * solidAngleShare * 1000;
}

/** Where metal leaves the underside, and which way. */
function aimUnder(out: EjectaState, pose: JetPose, sample: Readonly<Sample>, thicknessMm: number): void {
  const { sparkAngleDeg } = sample;
  const { leanTanX, leanTanY, headingX, headingY } = pose;
  const footX = pose.xMm - leanTanX * pose.heightMm;
  const footY = pose.yMm - leanTanY * pose.heightMm;
  const trail = Number.isNaN(sparkAngleDeg) ? leanTanX * headingX + leanTanY * headingY : tan(sparkAngleDeg * RAD_PER_DEG);
  const side = leanTanY * headingX - leanTanX * headingY;
  const dx = -trail * headingX + side * headingY;
  const dy = -trail * headingY - side * headingX;
  const length = Math.sqrt(dx * dx + dy * dy + 1);
  out.underDirX = dx / length;
  out.underDirY = dy / length;
  out.underDirZ = -1 / length;
  out.underXMm = footX - leanTanX * thicknessMm - 0.5 * trail * thicknessMm * headingX;
  out.underYMm = footY - leanTanY * thicknessMm - 0.5 * trail * thicknessMm * headingY;
}
