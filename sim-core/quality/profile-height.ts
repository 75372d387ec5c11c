import { clamp, floor } from '../math/elementary.ts';
import { QUALITY } from './quality-constants.ts';

/** What the profile height of a place is estimated from. */
export interface ProfileCause {
  thicknessMm: number;
  /** NaN where it is not known. */
  dragMm: number;
  sparkNoiseDeg: number;
  speedVariation: number;
  throughFraction: number;
  arcLeanDeg: number;
}

/**
 * Height of the profile that the model does not resolve, micrometres. An ESTIMATE: the model has no drag lines, so their height
 * is told from what makes them rough (common practice): a long drag, an unsteady front or hand, an arc that hunts in a wide
 * kerf, an arc that wanders. The factors are design defaults.
 */
export function profileHeightUm(cause: ProfileCause): number {
  const known = (value: number): number => (Number.isNaN(value) ? 0 : value);
  const waste = known(cause.throughFraction) - 0.5;
  return (
    QUALITY.rzFloorUm +
    QUALITY.rzPerThicknessUm * cause.thicknessMm +
    (QUALITY.rzPerDragShareUm * known(cause.dragMm)) / cause.thicknessMm +
    QUALITY.rzPerSparkNoiseUm * known(cause.sparkNoiseDeg) +
    QUALITY.rzPerWasteUm * (waste > 0 ? waste : 0) +
    QUALITY.rzPerSpeedVariationUm * clamp(known(cause.speedVariation), 0, QUALITY.speedVariationHigh) +
    QUALITY.rzPerArcLeanUm * known(cause.arcLeanDeg)
  );
}

/**
 * Profile height of a face that the model does resolve, micrometres: within a sampling length around a section, the range of
 * the face's place about its own straight trend. NaN with fewer than four places.
 */
export function resolvedHeightUm(faceMm: ArrayLike<number>, section: number, sectionMm: number): number {
  const half = floor(QUALITY.samplingLengthMm / sectionMm / 2 + 0.5);
  let n = 0;
  let at = 0;
  let face = 0;
  let cross = 0;
  let square = 0;
  const inside = (p: number): boolean => p >= 0 && p < faceMm.length && !Number.isNaN(faceMm[p]!);
  for (let p = section - half; p <= section + half; p++) {
    if (!inside(p)) continue;
    n++;
    at += p;
    face += faceMm[p]!;
  }
  if (n < 4) return Number.NaN;
  for (let p = section - half; p <= section + half; p++) {
    if (!inside(p)) continue;
    const off = p - at / n;
    cross += off * faceMm[p]!;
    square += off * off;
  }
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let p = section - half; p <= section + half; p++) {
    if (!inside(p)) continue;
    const rest = faceMm[p]! - face / n - (cross / square) * (p - at / n);
    if (rest < least) least = rest;
    if (rest > most) most = rest;
  }
  return (most - least) * 1000;
}
