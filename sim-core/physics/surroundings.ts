import { depthAt, firstMetal } from './align-layers.ts';
import type { Jet } from './jet.ts';
import type { MetalField } from './metal-field.ts';

/** Twelve directions around the jet, and the radius of the ring of its surroundings, in radii of the jet at the top surface. */
export const RING_X = [1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5, 0, 0.5, 0.866025403784];
export const RING_Y = [0, 0.5, 0.866025403784, 1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5];
export const RING_RADII = 1.15;
export const PLACES_AROUND = 12;

/** How deep the ground lies on a ring just outside the jet, and where it is open: depth in layers, slope as d depth / d place. */
export interface Surroundings {
  deepest: number;
  open: number;
  slopeX: number;
  slopeY: number;
}

export function readSurroundings(jet: Jet, metal: MetalField, anyFallen: boolean): void {
  const { surroundings, rays } = jet;
  const { layers, layerMm, cellMm } = metal;
  const ringMm = rays.radiusTop * RING_RADII;
  let deepest = 0;
  let open = 0;
  let slopeX = 0;
  let slopeY = 0;
  for (let n = 0; n < PLACES_AROUND; n++) {
    const ix = ((rays.footX + RING_X[n]! * ringMm) / cellMm) | 0;
    const iy = ((rays.footY + RING_Y[n]! * ringMm) / cellMm) | 0;
    const k = firstMetal(jet, metal, ix, iy, anyFallen);
    const depth = depthAt(jet, metal, ix, iy, k);
    if (k >= layers) open++;
    if (depth > deepest) deepest = depth;
    slopeX += depth * RING_X[n]!;
    slopeY += depth * RING_Y[n]!;
  }
  surroundings.deepest = deepest;
  surroundings.open = open;
  surroundings.slopeX = (slopeX * layerMm) / ((PLACES_AROUND / 2) * ringMm);
  surroundings.slopeY = (slopeY * layerMm) / ((PLACES_AROUND / 2) * ringMm);
}
