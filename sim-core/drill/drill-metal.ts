import { cos, sin } from '../math/elementary.ts';
import { contains, distanceMm } from '../math/plane.ts';
import type { PointMm } from '../run/types.ts';
import type { Drill } from './schema.ts';

/** True over the plate and off its cut-outs. Openings of a mesh count as metal: a line may cross them. */
export function isMetal(drill: Drill, point: PointMm): boolean {
  const { lengthMm, widthMm, cutouts } = drill.plate;
  if (point.xMm <= 0 || point.xMm >= lengthMm || point.yMm <= 0 || point.yMm >= widthMm) return false;
  return !cutouts.some((outline) => contains(outline, point.xMm, point.yMm));
}

/** Distance from a point to the nearest edge: of the plate, or of a cut-out. */
export function edgeDistanceMm(drill: Drill, point: PointMm): number {
  const { lengthMm, widthMm, cutouts } = drill.plate;
  const plate = [
    { xMm: 0, yMm: 0 },
    { xMm: lengthMm, yMm: 0 },
    { xMm: lengthMm, yMm: widthMm },
    { xMm: 0, yMm: widthMm },
  ];
  let nearest = Number.POSITIVE_INFINITY;
  for (const outline of [plate, ...cutouts]) {
    for (const [index, from] of outline.entries()) {
      const distance = segmentDistanceMm(point, from, outline[(index + 1) % outline.length]);
      if (distance < nearest) nearest = distance;
    }
  }
  return nearest;
}

function segmentDistanceMm(point: PointMm, from: PointMm, to: PointMm): number {
  const dx = to.xMm - from.xMm;
  const dy = to.yMm - from.yMm;
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : ((point.xMm - from.xMm) * dx + (point.yMm - from.yMm) * dy) / square;
  const held = share < 0 ? 0 : share > 1 ? 1 : share;
  return distanceMm(point, { xMm: from.xMm + held * dx, yMm: from.yMm + held * dy });
}

/** The place so far ahead of another, in its direction. */
export function ahead(place: PointMm & { headingRad: number }, byMm: number): PointMm {
  return { xMm: place.xMm + byMm * cos(place.headingRad), yMm: place.yMm + byMm * sin(place.headingRad) };
}
