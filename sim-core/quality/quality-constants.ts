import type { MaterialId } from '../materials/material-id.ts';

/**
 * Every tunable figure of the cut-quality estimates. Unless a source is named it is a design default: set so that the figures
 * rise and fall as common practice says, not measured on cut plate.
 */
export const QUALITY = {
  /** Length of line taken as one place, mm. */
  placeMm: 1,
  /** Sections of the kerf read in each place. */
  sectionsPerPlace: 3,
  /** Farthest that a face is looked for from the middle of the kerf, mm; range 5 to 20. */
  faceReachMm: 12,
  /** How far beside the arc's own line the kerf's middle may lie at a depth, mm; range 0.5 to 2. */
  middleSlackMm: 1,
  /** Distance from the line within which the arc counts as cutting it, mm. Same as in the scoring. */
  corridorMm: 6,

  /**
   * Drag over thickness times the tangent of the spark angle, on 6 mm; it falls with the fourth root of the thickness. Fitted to
   * coupons of this core: 0.80 to 0.86 on 1.5 mm, 0.55 to 0.62 on 6 mm, 0.41 to 0.43 on 20 mm.
   */
  dragShareAt6Mm: 0.58,

  /** Profile height, micrometres, of a face cut as it should be: constant, and per mm of thickness. Range 5 to 30; 0.5 to 1.5. */
  rzFloorUm: 10,
  rzPerThicknessUm: 0.9,
  /** Per drag over thickness; range 50 to 150. */
  rzPerDragShareUm: 100,
  /** Per degree of standard deviation of the spark angle within a sampling length; range 2 to 10. */
  rzPerSparkNoiseUm: 5,
  /** Per share of arc power that is wasted through the kerf beyond half; range 60 to 180. */
  rzPerWasteUm: 120,
  /** Per standard deviation of the speed over its mean within a sampling length, up to this much of it; range 20 to 120. */
  rzPerSpeedVariationUm: 60,
  speedVariationHigh: 0.5,
  /** Per degree that the arc points off the torch's axis; range 2 to 10. */
  rzPerArcLeanUm: 6,
  /** Height from which the metal's own face counts as notched, cells; a straight face beats with the cells by less. Range 1 to 2. */
  notchCells: 1.5,
  /** Sampling length of the profile, mm; five of them are the evaluation length of 15 mm (ISO 9013, from memory). */
  samplingLengthMm: 3,

  /** Spark angle under which melt runs back along the bottom edge, and at which it does so fully, deg. */
  slowDrossFromDeg: 13,
  slowDrossFullDeg: 4,
  /** Share of the melt of one face that stays on its bottom edge then; range 0.1 to 0.3. */
  slowDrossShare: 0.2,
  /** Spark angle over which a thin bead freezes on the lagging bottom edge, and at which it does so fully, deg. */
  fastDrossFromDeg: 30,
  fastDrossFullDeg: 40,
  fastDrossShare: 0.05,
  /** Share of the thrown metal that leaves at the top from which spatter counts, and the share of it that stays beside the kerf. */
  topSpatterFrom: 0.12,
  topSpatterStays: 0.08,
  /** Bead under this height counts as none, mm. */
  leastDrossMm: 0.1,

  /** A start or end counts as wide by this much over the middle of the cut, mm; it is looked for this far from the end, mm. */
  wideByMm: 0.5,
  endReachMm: 4,
} as const;

/**
 * Temperature that bounds the heat-affected zone, degC. Carbon steel: begin of austenite, as in the Welding Handbook's example
 * (730, from memory). Austenitic stainless: begin of the range of sensitisation (about 500, design default). Aluminium 6xxx:
 * softening by over-ageing (about 250, design default).
 */
export const HEAT_LIMIT_C: Record<MaterialId, number> = {
  'mild-steel': 730,
  'stainless-steel': 500,
  aluminium: 250,
};
