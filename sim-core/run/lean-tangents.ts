import { cos, RAD_PER_DEG, sin, tan } from '../math/elementary.ts';
import type { Samples } from './types.ts';

const UPRIGHT = { x: 0, y: 0 };

/** Lean of the handle toward +x and +y at a tick, as tangents. */
export function leanTangents(samples: Samples, index: number): { x: number; y: number } {
  const { travelAngleDeg, workAngleDeg, headingRad } = samples.columns;
  if (travelAngleDeg[index] === 0 && workAngleDeg[index] === 0) return UPRIGHT;
  const ahead = tan(travelAngleDeg[index] * RAD_PER_DEG);
  const left = tan(workAngleDeg[index] * RAD_PER_DEG);
  const c = cos(headingRad[index]);
  const s = sin(headingRad[index]);
  return { x: ahead * c - left * s, y: ahead * s + left * c };
}
