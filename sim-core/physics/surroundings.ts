import { depthAt, firstMetal } from './align-layers.ts';
import type { Jet, JetPose } from './jet.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';

/** Twelve directions around the jet, and the radius of the ring of its surroundings, in radii of the jet at the top surface. */
export const RING_X = [1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5, 0, 0.5, 0.866025403784];
export const RING_Y = [0, 0.5, 0.866025403784, 1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5];
export const RING_RADII = 1.15;
export const PLACES_AROUND = 12;

/** Rings, in radii of the jet at the top surface, at which a way out for melt is looked for. */
const WAY_OUT_RADII = [1.15, 2, 3, 4.5, 6.5];

/** What lies around the jet, on a ring just outside it: where it is open from top to underside, and how the floor slopes, d depth / d place. */
export interface Surroundings {
  open: number;
  /** Which of them, a bit each. */
  openPlaces: number;
  slopeX: number;
  slopeY: number;
}

export function readSurroundings(jet: Jet, metal: MetalField, pose: JetPose, anyFallen: boolean): void {
  const { surroundings, rays } = jet;
  const { layers, layerMm, cellMm } = metal;
  const ringMm = rays.radiusTop * RING_RADII;
  // A leaning jet's footprint is drawn out along the lean: a place at (a, b) across the axis lies at (a, b) + stretch * lean * (lean . (a, b)).
  const { leanTanX, leanTanY } = pose;
  const square = leanTanX * leanTanX + leanTanY * leanTanY;
  const stretch = square > 0 ? (rays.lengthening - 1) / square : 0;
  let open = 0;
  let openPlaces = 0;
  let slopeX = 0;
  let slopeY = 0;
  for (let n = 0; n < PLACES_AROUND; n++) {
    const more = stretch * (RING_X[n]! * leanTanX + RING_Y[n]! * leanTanY);
    const ix = ((rays.footX + (RING_X[n]! + more * leanTanX) * ringMm) / cellMm) | 0;
    const iy = ((rays.footY + (RING_Y[n]! + more * leanTanY) * ringMm) / cellMm) | 0;
    const k = firstMetal(jet, metal, ix, iy, anyFallen);
    const depth = depthAt(jet, metal, ix, iy, k);
    if (k >= layers) {
      open++;
      openPlaces |= 1 << n;
    }
    slopeX += depth * RING_X[n]!;
    slopeY += depth * RING_Y[n]!;
  }
  surroundings.open = open;
  surroundings.openPlaces = openPlaces;
  surroundings.slopeX = (slopeX * layerMm) / ((PLACES_AROUND / 2) * ringMm);
  surroundings.slopeY = (slopeY * layerMm) / ((PLACES_AROUND / 2) * ringMm);
}

/** How the metal ends ahead of a torch that moves so, mm/s. Reused. */
export interface Ahead {
  driftX: number;
  driftY: number;
  /** Share of the places ahead at which the jet has run out of the plate, or into a gap wider than itself, 0 to 1; less for a slow torch. */
  open: number;
}

/** Cosine of the angle to the travel within which a place lies ahead. */
const AHEAD_COSINE = 0.3;
/** Distance at which the metal must still be gone, in radii of the jet: farther than the rim of its own hole. */
const AHEAD_RADII = 3.5;

/** Whether the metal ends ahead. A jet in its own wide hole has metal farther on; one at the end of its cut has none. */
export function lookAhead(ahead: Ahead, jet: Jet, metal: MetalField): void {
  const { rays, surroundings } = jet;
  const { nx, ny, layers, cellMm, gone, pieceOf } = metal;
  ahead.open = 0;
  const speed = Math.sqrt(ahead.driftX * ahead.driftX + ahead.driftY * ahead.driftY);
  if (surroundings.openPlaces === 0 || speed < 1e-3) return;
  const away = rays.radiusTop * AHEAD_RADII;
  let places = 0;
  let open = 0;
  for (let n = 0; n < PLACES_AROUND; n++) {
    if (RING_X[n]! * ahead.driftX + RING_Y[n]! * ahead.driftY < AHEAD_COSINE * speed) continue;
    places++;
    if ((surroundings.openPlaces & (1 << n)) === 0) continue;
    const ix = ((rays.footX + RING_X[n]! * away) / cellMm) | 0;
    const iy = ((rays.footY + RING_Y[n]! * away) / cellMm) | 0;
    const column = iy * nx + ix;
    let k = 0;
    if (ix >= 0 && iy >= 0 && ix < nx && iy < ny && pieceOf[column] === 0)
      while (k < layers && gone[column * layers + k]! >= 1) k++;
    else k = layers;
    if (k >= layers) open++;
  }
  ahead.open = ((open / places) * speed) / (speed + MODEL.reachBackMmPerS);
}

/** How melt gets out of a blind hole. Reused. */
export interface WayOut {
  /** Climb that leaves half of steel's melt at 45 A behind, mm. */
  widthMm: number;
  /** Height that it must climb by the easiest way, mm. */
  climbMm: number;
  /** Where it comes out, from the axis's foot, mm: the middle of the ways, each weighed by how easy it is. */
  offsetX: number;
  offsetY: number;
}

/**
 * The ways out from a floor so deep: in every direction the ground, seen from above, is looked at ring by ring; what rises no
 * steeper than a ramp of MODEL.rampSlope costs nothing. A groove behind the jet is a way out, a hole drilled aslant under solid
 * metal is none.
 */
export function findWayOut(jet: Jet, metal: MetalField, floorMm: number, anyFallen: boolean): void {
  const { rays, wayOut } = jet;
  const { nx, ny, layers, layerMm, cellMm, gone, pieceOf, openedTo } = metal;
  wayOut.widthMm = 2 * MODEL.climbWidths * Math.sqrt(rays.radiusTop * MODEL.climbRadiusMm);
  let least = floorMm;
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let n = 0; n < PLACES_AROUND; n++) {
    let climb = 0;
    let run = 0;
    for (let ring = 0; ring < WAY_OUT_RADII.length; ring++) {
      const away = rays.radiusTop * WAY_OUT_RADII[ring]!;
      const ix = ((rays.footX + RING_X[n]! * away) / cellMm) | 0;
      const iy = ((rays.footY + RING_Y[n]! * away) / cellMm) | 0;
      if (ix < 0 || iy < 0 || ix >= nx || iy >= ny) break;
      const column = iy * nx + ix;
      if (anyFallen && pieceOf[column]! > 0) break;
      let k = openedTo[column]!;
      while (k < layers && gone[column * layers + k]! >= 1) k++;
      const depthMm = (k < layers ? k + gone[column * layers + k]! : layers) * layerMm;
      const rise = floorMm - depthMm - MODEL.rampSlope * away;
      if (rise > climb) {
        climb = rise;
        run = away;
      }
    }
    if (climb < least) least = climb;
    const square = (climb / wayOut.widthMm) * (climb / wayOut.widthMm);
    const ease = 1 / (1 + square * square * square);
    sum += ease;
    sumX += ease * RING_X[n]! * run;
    sumY += ease * RING_Y[n]! * run;
  }
  wayOut.climbMm = least;
  wayOut.offsetX = sumX / sum;
  wayOut.offsetY = sumY / sum;
}
