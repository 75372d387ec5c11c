import { edgeReliefMm } from './iso-9013.ts';

/**
 * Perpendicularity or angularity u of one face, mm, after ISO 9013 (definition from memory): the distance between the two
 * parallel lines at the nominal angle between which the profile lies, leaving the relief off at the top and at the bottom.
 * `facesMm` holds the place of the face in each layer; `slantTan` is how far the nominal face goes to the right per mm of depth
 * (0 for a square cut). NaN where fewer than two layers have a face.
 */
export function faceSquarenessMm(facesMm: ArrayLike<number>, layerMm: number, slantTan: number): number {
  const thicknessMm = facesMm.length * layerMm;
  // Across a slanted face the profile is longer than the plate is thick, and lies less far apart.
  const lengthening = Math.sqrt(1 + slantTan * slantTan);
  const reliefMm = edgeReliefMm(thicknessMm * lengthening) / lengthening;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let places = 0;
  for (let k = 0; k < facesMm.length; k++) {
    const depthMm = (k + 0.5) * layerMm;
    const face = facesMm[k]!;
    if (depthMm < reliefMm || depthMm > thicknessMm - reliefMm || Number.isNaN(face)) continue;
    const off = face + slantTan * depthMm;
    if (off < least) least = off;
    if (off > most) most = off;
    places++;
  }
  return places < 2 ? Number.NaN : (most - least) / lengthening;
}
