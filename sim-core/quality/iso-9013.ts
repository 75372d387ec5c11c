/**
 * Ranges of ISO 9013:2017 for the faces of thermal cuts. Formulas after a secondary source that states the standard and from
 * memory of its tables 4 and 5; the standard itself was not read. `aMm` is the cut thickness.
 */

/** Limits of the perpendicularity and angularity tolerance u, mm: constant, and share of the cut thickness. */
const U_LIMITS = [
  [0.05, 0.003],
  [0.15, 0.007],
  [0.4, 0.01],
  [0.8, 0.02],
  [1.2, 0.035],
] as const;

/** Limits of the mean height of the profile Rz5, micrometres. */
const RZ5_LIMITS = [
  [10, 0.6],
  [40, 0.8],
  [70, 1.2],
  [110, 1.8],
] as const;

export const U_RANGES = U_LIMITS.length;
export const RZ5_RANGES = RZ5_LIMITS.length;

/** Greatest u of a range 1 to 5, mm. Throws RangeError for another range. */
export function uLimitMm(range: number, aMm: number): number {
  return limit(U_LIMITS, range, aMm);
}

/** Greatest Rz5 of a range 1 to 4, micrometres. Throws RangeError for another range. */
export function rz5LimitUm(range: number, aMm: number): number {
  return limit(RZ5_LIMITS, range, aMm);
}

/** The range 1 to 5 that u, mm, falls in; null beyond the last. */
export function uRangeOf(uMm: number, aMm: number): number | null {
  return rangeOf(U_LIMITS, uMm, aMm);
}

/** The range 1 to 4 that Rz5, micrometres, falls in; null beyond the last. */
export function rz5RangeOf(rz5Um: number, aMm: number): number | null {
  return rangeOf(RZ5_LIMITS, rz5Um, aMm);
}

/** What is left off at the top and at the bottom of a face when u is taken, mm (from memory of the standard). */
export function edgeReliefMm(aMm: number): number {
  if (aMm <= 3) return 0.1 * aMm;
  if (aMm <= 6) return 0.3;
  if (aMm <= 10) return 0.6;
  if (aMm <= 20) return 1;
  return aMm <= 40 ? 1.5 : 2;
}

type Limits = readonly (readonly [number, number])[];

function limit(limits: Limits, range: number, aMm: number): number {
  const terms = limits[range - 1];
  if (!terms) throw new RangeError(`There is no range ${range}: 1 to ${limits.length} are there.`);
  return terms[0] + terms[1] * aMm;
}

function rangeOf(limits: Limits, value: number, aMm: number): number | null {
  for (let range = 1; range <= limits.length; range++) if (value <= limit(limits, range, aMm)) return range;
  return null;
}
