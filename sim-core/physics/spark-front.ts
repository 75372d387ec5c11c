import { atan, DEG_PER_RAD } from '../math/elementary.ts';
import type { Sample } from '../run/types.ts';
import type { Jet, JetPose } from './jet.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';

/** The front's slope near the underside, d x / d depth along travel (negative = the underside lags), and its filter. */
export interface SparkFront {
  /** Filtered slope: the last of three stages. */
  slope: number;
  stageOne: number;
  stageTwo: number;
  /** 1 once the stages hold a reading since the stream began. */
  known: number;
  /** Metal leaving the underside, mm3/s, smoothed over one stage: one tick without any is not the end of the stream. */
  streamMm3PerS: number;
}

/** Half breadth of the strip that is read, in radii of the jet at the nozzle; the weight falls off to its rim as a parabola. */
const STRIP_RADII = 0.6;

export function createSparkFront(): SparkFront {
  return { slope: 0, stageOne: 0, stageTwo: 0, known: 0, streamMm3PerS: 0 };
}

/**
 * Reads the front's slope over the last 40 % of the depth: in a strip along the travel, the solid metal of each layer is summed,
 * which is the front's place but for a constant; its regression on depth is the slope. Layers are aligned along the axis first,
 * so that the strip's own rim cancels, and the axis's lean is added afterwards. The strip lies along the travel and is as long in
 * every direction; at its two ends the weight falls off over one cell, so that no column comes or goes at a stroke. `keep` is each filter stage's share of
 * its old value: three stages in a row quiet the beat of front and cells far better than one of the same delay.
 */
export function readSparkFront(front: SparkFront, jet: Jet, metal: MetalField, pose: JetPose, keep: number): void {
  const { nx, ny, layers, layerMm, cellMm, gone } = metal;
  const { x: shiftX, y: shiftY, address } = jet.shifts;
  const lengthening = Math.sqrt(1 + pose.leanTanX * pose.leanTanX + pose.leanTanY * pose.leanTanY);
  const footX = pose.xMm - pose.leanTanX * pose.heightMm - metal.x0Mm;
  const footY = pose.yMm - pose.leanTanY * pose.heightMm - metal.y0Mm;
  const radius = jet.jetRadiusMm + MODEL.jetSpread * (pose.heightMm + layers * layerMm) * lengthening;
  const reach = radius * lengthening + 2 * cellMm;
  const strip = jet.jetRadiusMm * STRIP_RADII;
  const { headingX, headingY } = pose;
  const from = firstSparkLayer(layers);
  const count = layers - from;
  const middleLayer = from + (count - 1) / 2;
  const farthest = reach + cellMm / 2;
  const absX = headingX < 0 ? -headingX : headingX;
  const absY = headingY < 0 ? -headingY : headingY;
  const boxX = farthest * absX + strip * absY;
  const boxY = farthest * absY + strip * absX;
  const ixFrom = ((footX - boxX) / cellMm) | 0;
  const ixTo = ((footX + boxX) / cellMm) | 0;
  const iyFrom = ((footY - boxY) / cellMm) | 0;
  const iyTo = ((footY + boxY) / cellMm) | 0;
  // Only columns whose every layer lies on the grid count.
  const lastX = shiftX[layers - 1]!;
  const lastY = shiftY[layers - 1]!;
  const gridX0 = lastX < 0 ? -lastX : 0;
  const gridX1 = lastX > 0 ? nx - lastX : nx;
  const gridY0 = lastY < 0 ? -lastY : 0;
  const gridY1 = lastY > 0 ? ny - lastY : ny;
  const steep = headingY < -1e-6 || headingY > 1e-6;
  const halfStrip = steep ? strip / (headingY > 0 ? headingY : -headingY) + cellMm : 0;
  const firstAddress = address[from]!;
  const lastAddress = address[layers - 1]!;
  let moment = 0;
  let breadth = 0;
  for (let iy = iyFrom > gridY0 ? iyFrom : gridY0; iy <= iyTo && iy < gridY1; iy++) {
    const oy = (iy + 0.5) * cellMm - footY;
    let ixLow = ixFrom > gridX0 ? ixFrom : gridX0;
    let ixHigh = ixTo < gridX1 ? ixTo : gridX1 - 1;
    if (steep) {
      // The strip's chord in this row, with a cell to spare; which cells count is told exactly below.
      const middle = footX + (oy * headingX) / headingY;
      const low = (middle - halfStrip) / cellMm - 1;
      const high = (middle + halfStrip) / cellMm + 1;
      if (low > ixLow) ixLow = low < ixHigh ? low | 0 : ixHigh + 1;
      if (high < ixHigh) ixHigh = high > 0 ? high | 0 : -1;
    }
    for (let ix = ixLow; ix <= ixHigh; ix++) {
      const ox = (ix + 0.5) * cellMm - footX;
      const side = oy * headingX - ox * headingY;
      if (side >= strip || side <= -strip) continue;
      const along = ox * headingX + oy * headingY;
      const inside = (farthest - (along < 0 ? -along : along)) / cellMm;
      if (inside <= 0) continue;
      const ratio = side / strip;
      const weight = (1 - ratio * ratio) * (inside < 1 ? inside : 1);
      breadth += weight;
      const base = (iy * nx + ix) * layers;
      // Most columns are all solid or all open: their moment is zero.
      if (gone[base + firstAddress]! === gone[base + lastAddress]!) continue;
      for (let k = from; k < layers; k++) moment += weight * (k - middleLayer) * (1 - gone[base + address[k]!]!);
    }
  }
  if (breadth <= 0) return;
  // Sum of weights per mm of travel turns a sum of solid cells into a place.
  const perMm = breadth / (2 * reach);
  const slope =
    -moment / ((count * (count * count - 1)) / 12) / perMm / layerMm - (pose.leanTanX * headingX + pose.leanTanY * headingY);
  if (front.known === 0) {
    front.stageOne = slope;
    front.stageTwo = slope;
    front.slope = slope;
    front.known = 1;
    return;
  }
  front.stageOne = keep * front.stageOne + (1 - keep) * slope;
  front.stageTwo = keep * front.stageTwo + (1 - keep) * front.stageOne;
  front.slope = keep * front.slope + (1 - keep) * front.stageTwo;
}

/** First layer of those whose middle lies in the last 40 % of the depth. */
export function firstSparkLayer(layers: number): number {
  let k = 0;
  while ((k + 0.5) / layers < 1 - MODEL.sparkDepthShare) k++;
  return k;
}

/** Angle of the front's slope from the plate normal, deg, trailing positive; NaN before the first reading. */
export function tellSparkAngle(front: SparkFront, out: Pick<Sample, 'sparkAngleDeg'>): void {
  out.sparkAngleDeg = front.known === 1 ? -atan(front.slope) * DEG_PER_RAD : 0 / 0;
}
