import {
  type CutFaces,
  type FaceReading,
  type PathGeometry,
  type QualityPlace,
  readFaces,
  TICK_HZ,
} from '../../../sim-core/index.ts';

/** A place of the plate's top surface, mm. */
export interface PlatePoint {
  xMm: number;
  yMm: number;
}

/** The torch counts as being at a place of the cut within this time of having been there last. */
const NEAR_TICKS = TICK_HZ;
/** A point this far from an edge of the cut is taken to it. */
const SNAP_MM = 3;

/** The place of the cut at which the arc was last at a moment; null where it was nowhere on the line about then. */
export function placeAtTick(places: readonly QualityPlace[], tick: number): QualityPlace | null {
  let best: QualityPlace | null = null;
  let least = NEAR_TICKS;
  for (const place of places) {
    const apart = Math.abs(place.tick - tick);
    if (place.tick === 0 || apart >= least) continue;
    best = place;
    least = apart;
  }
  return best;
}

/** The millimetre of the line that a way along it lies in. */
export function placeAt(places: readonly QualityPlace[], sMm: number): QualityPlace | null {
  const first = places[0];
  if (!first) return null;
  return places[Math.max(0, Math.min(places.length - 1, Math.floor(sMm / (2 * first.sMm))))] ?? null;
}

/** A place beside the line, left of travel positive, mm. */
export function besideLine(line: PathGeometry, sMm: number, acrossMm: number): PlatePoint {
  const { xMm, yMm, headingRad } = line.pointAt(sMm);
  return { xMm: xMm - Math.sin(headingRad) * acrossMm, yMm: yMm + Math.cos(headingRad) * acrossMm };
}

/** The nearest edge of the cut on the top surface, if there is one close by; else the point itself. */
export function onEdge(line: PathGeometry, faces: CutFaces, point: PlatePoint, withinMm = SNAP_MM): PlatePoint {
  const { sMm, offsetMm, beyondMm } = line.nearest(point.xMm, point.yMm);
  if (Math.abs(beyondMm) > withinMm) return point;
  const { leftEdgeMm, rightEdgeMm } = readFaces(faces, sMm);
  let across: number | null = null;
  for (const edge of [leftEdgeMm, rightEdgeMm]) {
    if (edge === null || Math.abs(edge - offsetMm) > withinMm) continue;
    if (across === null || Math.abs(edge - offsetMm) < Math.abs(across - offsetMm)) across = edge;
  }
  return across === null ? point : besideLine(line, sMm, across);
}

/** Which way a face of a cut that was meant square opens, on its side of the kerf; under `leastDeg` it counts as square. */
export function leanWay(side: 'left' | 'right', leanDeg: number, leastDeg: number): 'square' | 'top' | 'bottom' {
  if (Math.abs(leanDeg) < leastDeg) return 'square';
  // A left face that goes to the right on its way down closes the kerf below.
  return (side === 'left') === leanDeg > 0 ? 'top' : 'bottom';
}

/** Lean, deg, that one cell over the thickness makes. */
export function leanOfOneCell({ cellMm, layerMm, layers }: CutFaces): number {
  return (Math.atan(cellMm / (layers * layerMm)) * 180) / Math.PI;
}

/** How far the stroke goes over the metal on either side, mm. */
const STROKE_MM = 9;

/** Ends of the stroke that shows what is measured at a place: across the kerf, and a little metal on either side. */
export function strokeAcross(
  line: PathGeometry,
  sMm: number,
  { leftEdgeMm, rightEdgeMm }: FaceReading,
): [PlatePoint, PlatePoint] {
  return [besideLine(line, sMm, (leftEdgeMm ?? 1) + STROKE_MM), besideLine(line, sMm, (rightEdgeMm ?? -1) - STROKE_MM)];
}
