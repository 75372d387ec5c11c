import { abs, cos, sin } from '../math/elementary.ts';
import { distanceMm } from '../math/plane.ts';
import { type RigFit, SHIELDS, type ShieldId } from '../physics/rig-fit.ts';
import type { PointMm } from '../run/types.ts';
import type { PathGeometry, PathTurn } from './path-geometry.ts';
import type { DrillGuide } from './schema.ts';

/** Before an arc that a circle guide holds, the arm takes the torch over along this much of the line, mm. */
const TAKE_OVER_MM = 3;

/** The distance from the line at which a guide is to be set for a torch front, mm: what slides along it is the front's rim. */
export function guideOffsetMm(shield: ShieldId): number {
  return SHIELDS[shield].frontRadiusMm;
}

/**
 * Where along a guide a torch that leans on it runs, mm to the left of the line (to the right negative). 0 where the guide is
 * set right for the front; null where nothing guides.
 */
export function guidedOffsetMm(guide: DrillGuide, chosenOffsetMm: number | null, fit: Pick<RigFit, 'shield'>): number | null {
  if (guide.kind !== 'straight-edge' && guide.kind !== 'template') return null;
  if (chosenOffsetMm === null) return null;
  const roomMm = chosenOffsetMm - guideOffsetMm(fit.shield);
  return guide.side === 'left' ? roomMm : -roomMm;
}

/**
 * Where a guide lets the torch be that the hand would hold at (x, y), mm. A straight edge or template stands
 * `chosenOffsetMm` beside the line and stops the front's rim: the hand can lean on it or leave it, never pass it. The arm of
 * a circle guide is set to the turn's radius less `chosenOffsetMm` from the pin to the rim, and holds both ways along every
 * arc of that radius; on the way to such an arc it takes over. Nothing is held where the offset is null. Pure: it depends on the place alone.
 */
export function holdToGuide(
  path: PathGeometry,
  guide: DrillGuide,
  chosenOffsetMm: number | null,
  fit: Pick<RigFit, 'shield'>,
  xMm: number,
  yMm: number,
): PointMm {
  if (guide.kind === 'freehand' || chosenOffsetMm === null) return { xMm, yMm };
  const foot = path.nearest(xMm, yMm);
  if (guide.kind === 'circle') {
    return onArm(path, guide.radiusMm, guideOffsetMm(fit.shield) - chosenOffsetMm, foot.sMm, { xMm, yMm });
  }
  const byMm = besideEdge(guidedOffsetMm(guide, chosenOffsetMm, fit) ?? 0, guide.side, foot.offsetMm) - foot.offsetMm;
  return { xMm: xMm - byMm * sin(foot.headingRad), yMm: yMm + byMm * cos(foot.headingRad) };
}

function besideEdge(limitMm: number, side: 'left' | 'right', offsetMm: number): number {
  if (side === 'left') return offsetMm > limitMm ? limitMm : offsetMm;
  return offsetMm < limitMm ? limitMm : offsetMm;
}

/** The place to which an arm brings the torch that keeps the axis `outMm` farther from the pin than the line is. */
function onArm(path: PathGeometry, radiusMm: number, outMm: number, sMm: number, place: PointMm): PointMm {
  const here = path.turnAt(sMm);
  if (here && isTurnOf(here, radiusMm)) return fromPin(here.centre, place, radiusMm + outMm);
  for (const jointMm of path.jointsMm) {
    const next = path.turnAt(jointMm);
    const aheadMm = jointMm - sMm;
    if (!next || !isTurnOf(next, radiusMm) || aheadMm < 0 || aheadMm > TAKE_OVER_MM) continue;
    // So that the torch does not jump where the arc begins.
    return fromPin(next.centre, place, distanceMm(next.centre, place) + outMm * (1 - aheadMm / TAKE_OVER_MM));
  }
  return place;
}

function isTurnOf(turn: PathTurn, radiusMm: number): boolean {
  return abs(turn.radiusMm - radiusMm) < 0.01;
}

/** The place on the ray from the pin through another one, so far from the pin. */
function fromPin(pin: PointMm, through: PointMm, farMm: number): PointMm {
  const nowMm = distanceMm(pin, through);
  if (nowMm < 1e-9) return { xMm: pin.xMm + farMm, yMm: pin.yMm };
  const share = farMm / nowMm;
  return { xMm: pin.xMm + share * (through.xMm - pin.xMm), yMm: pin.yMm + share * (through.yMm - pin.yMm) };
}
