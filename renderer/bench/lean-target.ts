import type { DrillIntended, PathGeometry } from '../../sim-core/index.ts';

/** A lean of the handle in the plate's own axes, degrees. */
export interface LeanTarget {
  leanXDeg: number;
  leanYDeg: number;
}

const tan = (deg: number) => Math.tan((deg * Math.PI) / 180);
const degOf = (slope: number) => (Math.atan(slope) * 180) / Math.PI;

/** How the handle is to lean over a place of the path: across it for a bevel, along it for a groove, else not at all. */
export function leanTarget(geometry: PathGeometry, intended: DrillIntended, sMm: number): LeanTarget {
  const { headingRad } = geometry.pointAt(sMm);
  const band = intended.travelAngleDeg;
  const along = tan(band === null ? 0 : (band.low + band.high) / 2);
  const left = tan(intended.bevelDeg);
  const cos = Math.cos(headingRad);
  const sin = Math.sin(headingRad);
  return { leanXDeg: degOf(along * cos - left * sin), leanYDeg: degOf(along * sin + left * cos) };
}

/** Angle between two leans, degrees. */
export function leanBetweenDeg(a: LeanTarget, b: LeanTarget): number {
  const [ax, ay, bx, by] = [tan(a.leanXDeg), tan(a.leanYDeg), tan(b.leanXDeg), tan(b.leanYDeg)];
  const cos = (ax * bx + ay * by + 1) / Math.sqrt((ax * ax + ay * ay + 1) * (bx * bx + by * by + 1));
  return (Math.acos(Math.min(1, cos)) * 180) / Math.PI;
}

/** How far from the target still counts as held, degrees: half the band where one is asked for, else the drill's tolerance. */
export function leanRoomDeg(intended: DrillIntended, leanDeg: number): number {
  const band = intended.travelAngleDeg;
  return band === null ? leanDeg : Math.max(leanDeg, (band.high - band.low) / 2);
}
