import { cos, sin } from '../math/elementary.ts';
import type { PointMm } from '../run/types.ts';
import type { Drill } from './schema.ts';

/** True over the plate and off its cut-outs. Openings of a mesh count as metal: a line may cross them. */
export function isMetal(drill: Drill, point: PointMm): boolean {
  const { lengthMm, widthMm, cutouts } = drill.plate;
  if (point.xMm <= 0 || point.xMm >= lengthMm || point.yMm <= 0 || point.yMm >= widthMm) return false;
  return !cutouts.some((outline) => contains(outline, point));
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

export function distanceMm(a: PointMm, b: PointMm): number {
  const dx = a.xMm - b.xMm;
  const dy = a.yMm - b.yMm;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Even-odd rule, as the metal field uses it. */
export function contains(outline: readonly PointMm[], point: PointMm): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i];
    const b = outline[j];
    if (a.yMm > point.yMm === b.yMm > point.yMm) continue;
    if (point.xMm < ((b.xMm - a.xMm) * (point.yMm - a.yMm)) / (b.yMm - a.yMm) + a.xMm) inside = !inside;
  }
  return inside;
}

/** The place so far ahead of another, in its direction. */
export function ahead(place: PointMm & { headingRad: number }, byMm: number): PointMm {
  return { xMm: place.xMm + byMm * cos(place.headingRad), yMm: place.yMm + byMm * sin(place.headingRad) };
}
