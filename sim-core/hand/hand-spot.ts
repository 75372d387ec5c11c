import type { HandPlace } from '../drill/hand-script-schema.ts';
import type { PathGeometry } from '../drill/path-geometry.ts';
import { abs, atan, atan2, cos, DEG_PER_RAD, RAD_PER_DEG, sin, tan } from '../math/elementary.ts';
import { cornerSpeedMmPerS, type Glide } from './glide.ts';

/** Where the axis meets the plate. alongMm is null beside the drill's line. */
export interface Spot {
  alongMm: number | null;
  xMm: number;
  yMm: number;
  headingRad: number;
}

export function spotOf(place: HandPlace, path: PathGeometry, from: Spot): Spot {
  if ('xMm' in place) {
    const headingRad = atan2(place.yMm - from.yMm, place.xMm - from.xMm);
    return { alongMm: null, xMm: place.xMm, yMm: place.yMm, headingRad };
  }
  if ('alongMm' in place) return spotAlong(path, place.alongMm);
  return spotAlong(path, 'alongShare' in place ? place.alongShare * path.lengthMm : path.lengthMm + place.pastEndMm);
}

function spotAlong(path: PathGeometry, alongMm: number): Spot {
  return { alongMm, ...path.pointAt(alongMm) };
}

export function spotOn(glide: Glide & { to: Spot; from: Spot }, path: PathGeometry): Spot {
  const { from, to, doneMm, lengthMm } = glide;
  if (from.alongMm !== null && to.alongMm !== null) {
    return spotAlong(path, from.alongMm + (to.alongMm >= from.alongMm ? doneMm : -doneMm));
  }
  if (doneMm >= lengthMm) return to;
  const share = doneMm / lengthMm;
  const headingRad = atan2(to.yMm - from.yMm, to.xMm - from.xMm);
  return { alongMm: null, xMm: from.xMm + share * (to.xMm - from.xMm), yMm: from.yMm + share * (to.yMm - from.yMm), headingRad };
}

export function continues(fromAlongMm: number, to: Spot, then: Spot): boolean {
  if (to.alongMm === null || then.alongMm === null) return false;
  return to.alongMm > fromAlongMm === then.alongMm > to.alongMm;
}

/** Joints of the path between the two places where its direction jumps, with the speed at which each can be taken. */
export function corners(path: PathGeometry, fromMm: number, toMm: number): { atMm: number; mmPerS: number }[] {
  const found: { atMm: number; mmPerS: number }[] = [];
  for (const joint of path.jointsMm) {
    const atMm = toMm > fromMm ? joint - fromMm : fromMm - joint;
    if (atMm <= 0 || atMm >= abs(toMm - fromMm)) continue;
    const sine = abs(sin((path.pointAt(joint + 1e-6).headingRad - path.pointAt(joint - 1e-6).headingRad) / 2));
    if (sine > 0.02) found.push({ atMm, mmPerS: cornerSpeedMmPerS(sine) });
  }
  return found.sort((a, b) => a.atMm - b.atMm);
}

/** Lean toward +x and +y of a handle that leans so in and across the direction of travel. */
export function leanDeg(headingRad: number, travelAngleDeg: number, workAngleDeg: number): { x: number; y: number } {
  const ahead = tan(travelAngleDeg * RAD_PER_DEG);
  const left = tan(workAngleDeg * RAD_PER_DEG);
  const c = cos(headingRad);
  const s = sin(headingRad);
  return { x: atan(ahead * c - left * s) * DEG_PER_RAD, y: atan(ahead * s + left * c) * DEG_PER_RAD };
}
