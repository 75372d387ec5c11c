import { atan, DEG_PER_RAD, floor } from '../math/elementary.ts';
import type { KerfSection } from './kerf-section.ts';
import type { MetalReader } from './metal-reader.ts';

/** Where the two faces of a cut stand, section by section along the line, as the metal has them. */
export interface CutFaces {
  /** Distance of the sections, the first half of it past the start of the line, mm. */
  stepMm: number;
  /** Cell from which the metal was read, and height of a layer, mm. */
  cellMm: number;
  layerMm: number;
  layers: number;
  /** Left of the line positive, mm, `layers` to a section from the top down; NaN where there is no face. */
  leftMm: Float32Array;
  rightMm: Float32Array;
  /** Deepest open depth of each section, mm. */
  depthMm: Float32Array;
}

/** What can be measured on the cut at one place of the line. null where there is nothing to measure. */
export interface FaceReading {
  /** Between the faces in the top and in the bottom layer, mm. */
  topWidthMm: number | null;
  bottomWidthMm: number | null;
  /**
   * Slope of a face over the thickness, deg from the plate's normal, positive where it goes to the right of travel on its way
   * down: the sign of a work angle.
   */
  leftLeanDeg: number | null;
  rightLeanDeg: number | null;
  /** Where the middle of the kerf and its two edges stand on the top surface, left of the line positive, mm. */
  offLineMm: number | null;
  leftEdgeMm: number | null;
  rightEdgeMm: number | null;
  /** Open depth, mm. */
  depthMm: number;
}

/** Half the stretch of line over which a reading is taken, mm: a cell's step evens out, a notch of a millimetre does not. */
const HALF_READ_MM = 0.5;

export function cutFaces(sections: readonly KerfSection[], stepMm: number, grid: MetalReader['grid']): CutFaces {
  const { layers, layerMm, cellMm } = grid;
  const faces: CutFaces = {
    stepMm,
    cellMm,
    layerMm,
    layers,
    leftMm: new Float32Array(sections.length * layers),
    rightMm: new Float32Array(sections.length * layers),
    depthMm: Float32Array.from(sections, (section) => section.depthMm),
  };
  for (const [n, section] of sections.entries()) {
    faces.leftMm.set(section.left, n * layers);
    faces.rightMm.set(section.right, n * layers);
  }
  return faces;
}

/** Reads the cut at a place of its line: means over 1 mm about it, of the sections that have a face there. */
export function readFaces(faces: CutFaces, sMm: number): FaceReading {
  const { layers, layerMm, stepMm } = faces;
  const count = faces.depthMm.length;
  const nearest = floor(sMm / stepMm);
  const middle = nearest < 0 ? 0 : nearest >= count ? count - 1 : nearest;
  const half = floor(HALF_READ_MM / stepMm);
  const from = middle - half < 0 ? 0 : middle - half;
  const to = middle + half >= count ? count - 1 : middle + half;
  const left = faceOver(faces.leftMm, layers, from, to);
  const right = faceOver(faces.rightMm, layers, from, to);
  let depth = 0;
  for (let n = from; n <= to; n++) depth += faces.depthMm[n]!;
  const top = left[0]! - right[0]!;
  const bottom = left[layers - 1]! - right[layers - 1]!;
  return {
    topWidthMm: figure(top),
    bottomWidthMm: figure(bottom),
    leftLeanDeg: figure(leanDeg(left, layerMm)),
    rightLeanDeg: figure(leanDeg(right, layerMm)),
    offLineMm: figure((left[0]! + right[0]!) / 2),
    leftEdgeMm: figure(left[0]!),
    rightEdgeMm: figure(right[0]!),
    depthMm: depth / (to - from + 1),
  };
}

/** A face layer by layer: its mean over some sections, NaN where none of them has it. */
function faceOver(facesMm: Float32Array, layers: number, from: number, to: number): Float64Array {
  return Float64Array.from({ length: layers }, (_, layer) => {
    let sum = 0;
    let met = 0;
    for (let n = from; n <= to; n++) {
      const face = facesMm[n * layers + layer]!;
      if (Number.isNaN(face)) continue;
      sum += face;
      met += 1;
    }
    return met === 0 ? Number.NaN : sum / met;
  });
}

/** Angle of the straight line that fits a face best; NaN where fewer than two layers have it. */
function leanDeg(face: Float64Array, layerMm: number): number {
  let count = 0;
  let meanDepth = 0;
  let meanFace = 0;
  for (const [layer, place] of face.entries()) {
    if (Number.isNaN(place)) continue;
    count += 1;
    meanDepth += (layer + 0.5) * layerMm;
    meanFace += place;
  }
  if (count < 2) return Number.NaN;
  meanDepth /= count;
  meanFace /= count;
  let across = 0;
  let along = 0;
  for (const [layer, place] of face.entries()) {
    if (Number.isNaN(place)) continue;
    const depth = (layer + 0.5) * layerMm - meanDepth;
    across += depth * (place - meanFace);
    along += depth * depth;
  }
  return -atan(across / along) * DEG_PER_RAD;
}

function figure(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
