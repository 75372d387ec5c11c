import type { PathFoot, PathGeometry } from '../drill/path-geometry.ts';
import { abs, clamp, cos, floor, sin } from '../math/elementary.ts';
import { leanTangents } from '../run/lean-tangents.ts';
import { ARC_STATES, type Samples, TICK_HZ } from '../run/types.ts';
import { QUALITY } from './quality-constants.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/**
 * What the arc did along the line, per place of `placeMm`. Means are weighted by the metal removed, so that a pass through an
 * open kerf, or a wait in the air, says nothing. A place where nothing was removed has NaN means.
 */
export interface CutRecord {
  places: number;
  placeMm: number;
  /** Last tick, counted from 1, at which the arc was there; 0 = never. */
  tick: Int32Array;
  /** Where the axis met the top surface, left of the line positive, mm. */
  offsetMm: Float64Array;
  /** Tangents of the handle's lean to the left of the line and along it. */
  leftTan: Float64Array;
  aheadTan: Float64Array;
  sparkAngleDeg: Float64Array;
  /** Standard deviation of the spark angle, deg, and of the speed over its mean, within a sampling length. */
  sparkNoiseDeg: Float64Array;
  speedVariation: Float64Array;
  throughFraction: Float64Array;
  arcLeanDeg: Float64Array;
  /** Metal thrown per mm of line, mm3/mm, from the underside and from the top. */
  underMm2: Float64Array;
  topMm2: Float64Array;
  /** Heat left in the plate per mm of line, J, evened out over a few mm; and all of it within 10 mm along the line, J. */
  heatJPerMm: Float64Array;
  nearbyHeatJ: Float64Array;
}

/** Half the stretch over which the heat of a place is evened out, places. */
const HEAT_HALF_PLACES = 2;
/** Half the stretch whose heat a spot in its middle can have felt at once, places. */
const NEARBY_HALF_PLACES = 10;

/** Walks once over the samples of a run. */
export function recordCut(geometry: PathGeometry, samples: Samples): CutRecord {
  const places = floor(geometry.lengthMm / QUALITY.placeMm + 0.5) < 1 ? 1 : floor(geometry.lengthMm / QUALITY.placeMm + 0.5);
  const placeMm = geometry.lengthMm / places;
  const column = (): Float64Array => new Float64Array(places);
  const removed = column();
  const sum = {
    offset: column(),
    left: column(),
    ahead: column(),
    through: column(),
    arcLean: column(),
    under: column(),
    top: column(),
  };
  const heat = column();
  const spark = { weight: column(), mean: column(), square: column() };
  const speed = { weight: column(), mean: column(), square: column() };
  const tick = new Int32Array(places);
  const { columns } = samples;
  let last = -1;
  let lastMm = 0;
  for (let i = 0; i < samples.length; i++) {
    if (columns.arcState[i] !== TRANSFERRED) continue;
    const lean = leanTangents(samples, i);
    const x = columns.xMm[i] - columns.standOffMm[i] * lean.x;
    const y = columns.yMm[i] - columns.standOffMm[i] * lean.y;
    const joined = last === i - 1 && i > 0;
    // Where the line comes near itself, the arc stays on the branch that it is cutting.
    let foot: PathFoot = joined ? geometry.nearest(x, y, lastMm, 8) : geometry.nearest(x, y);
    if (joined && abs(foot.offsetMm) + abs(foot.beyondMm) > QUALITY.corridorMm) foot = geometry.nearest(x, y);
    const near = abs(foot.offsetMm) <= QUALITY.corridorMm && abs(foot.beyondMm) <= QUALITY.corridorMm;
    if (!near) continue;
    // A quick hand passes several places in one tick; each gets its share.
    const fromMm = joined && abs(foot.sMm - lastMm) < QUALITY.corridorMm ? lastMm : foot.sMm;
    const low = placeOf(fromMm < foot.sMm ? fromMm : foot.sMm, placeMm, places);
    const high = placeOf(fromMm < foot.sMm ? foot.sMm : fromMm, placeMm, places);
    last = i;
    lastMm = foot.sMm;
    const share = 1 / (high - low + 1) / TICK_HZ;
    const c = cos(foot.headingRad);
    const s = sin(foot.headingRad);
    for (let p = low; p <= high; p++) {
      tick[p] = i + 1;
      const under = columns.underMm3PerS[i] * share;
      const top = columns.topMm3PerS[i] * share;
      const weight = under + top;
      heat[p]! += columns.conductedW[i] * share;
      sum.under[p]! += under;
      sum.top[p]! += top;
      removed[p]! += weight;
      sum.offset[p]! += weight * foot.offsetMm;
      sum.left[p]! += weight * (lean.y * c - lean.x * s);
      sum.ahead[p]! += weight * (lean.x * c + lean.y * s);
      sum.through[p]! += weight * columns.throughFraction[i];
      sum.arcLean[p]! += weight * abs(columns.arcLeanDeg[i]);
      take(speed, p, weight, columns.speedMmPerS[i]);
      if (under > 0 && !Number.isNaN(columns.sparkAngleDeg[i])) take(spark, p, under, columns.sparkAngleDeg[i]);
    }
  }
  const mean = (total: Float64Array): Float64Array => total.map((value, p) => value / removed[p]!);
  const halfLength = floor(QUALITY.samplingLengthMm / placeMm / 2);
  return {
    places,
    placeMm,
    tick,
    offsetMm: mean(sum.offset),
    leftTan: mean(sum.left),
    aheadTan: mean(sum.ahead),
    sparkAngleDeg: spark.mean.map((value, p) => value / spark.weight[p]!),
    sparkNoiseDeg: deviation(spark, halfLength),
    speedVariation: deviation(speed, halfLength).map((value, p) => (value * speed.weight[p]!) / speed.mean[p]!),
    throughFraction: mean(sum.through),
    arcLeanDeg: mean(sum.arcLean),
    underMm2: sum.under.map((value) => value / placeMm),
    topMm2: sum.top.map((value) => value / placeMm),
    heatJPerMm: heat.map((_, p) => evened(heat, p, HEAT_HALF_PLACES) / placeMm),
    nearbyHeatJ: heat.map((_, p) => around(heat, p, NEARBY_HALF_PLACES).total),
  };
}

function placeOf(sMm: number, placeMm: number, places: number): number {
  return clamp(floor(sMm / placeMm), 0, places - 1);
}

interface Moments {
  weight: Float64Array;
  mean: Float64Array;
  square: Float64Array;
}

function take(moments: Moments, place: number, weight: number, value: number): void {
  moments.weight[place]! += weight;
  moments.mean[place]! += weight * value;
  moments.square[place]! += weight * value * value;
}

/** Standard deviation over a place and so many on either side; NaN where nothing was taken. */
function deviation(moments: Moments, half: number): Float64Array {
  return moments.weight.map((_, place) => {
    const weight = evened(moments.weight, place, half);
    const mean = evened(moments.mean, place, half) / weight;
    const variance = evened(moments.square, place, half) / weight - mean * mean;
    // Rounding may leave a hair below nothing; NaN stays NaN.
    return Math.sqrt(variance < 0 ? 0 : variance);
  });
}

/** Mean over a place and so many on either side, as far as the line goes. */
function evened(values: Float64Array, place: number, half: number): number {
  const { total, count } = around(values, place, half);
  return total / count;
}

/** What a place and so many on either side come to, as far as the line goes, and how many these are. */
function around(values: Float64Array, place: number, half: number): { total: number; count: number } {
  let total = 0;
  let count = 0;
  for (let p = place - half; p <= place + half; p++) {
    if (p < 0 || p >= values.length) continue;
    total += values[p]!;
    count++;
  }
  return { total, count };
}
