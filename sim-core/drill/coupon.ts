import { type KerfWidths, measureKerf } from '../quality/kerf-widths.ts';
import { appendSample, createSamples } from '../run/samples.ts';
import {
  COUPON_WIDTH_MM,
  type CouponCut,
  type CouponOptions,
  createCouponCut,
  STEADY_FROM_MM,
  STEADY_TO_MM,
  steadyPlaces,
} from './coupon-cut.ts';
import { type CouponQuality, couponQuality } from './coupon-quality.ts';
import { createSteadyAngle } from './steady-angle.ts';

/** Steady figures of a coupon, as the command line prints them. */
export interface CouponResult {
  sparkAngleDeg: number | null;
  sparkSide: 'under' | 'top' | 'both' | 'none';
  severedFraction: number;
  topKerfMm: number;
  bottomKerfMm: number;
  dragMm: number;
  throughPowerFraction: number;
  edgeDwellS: number | null;
  arcVoltageV: number | null;
  energy: { deliveredJ: number; removedJ: number; conductedJ: number; throughJ: number };
  quality: CouponQuality;
}

/** How far beyond the far side the torch goes on, mm. */
const RUN_OFF_MM = 6;

/**
 * Cuts a coupon 120 x 60 mm from the middle of its long side straight across: tip at stand-off over the edge, arc on, wait
 * until through, then constant speed to the far side. Means are over the middle half of the travel. Throws RangeError with
 * one sentence where an option cannot be used.
 */
export function runCoupon(options: CouponOptions): CouponResult {
  const { thicknessMm, speedMmPerS } = options;
  if (!(speedMmPerS > 0 && speedMmPerS <= 1000))
    throw new RangeError(`The speed, ${speedMmPerS} mm/s, is not between 0 and 1000.`);
  const cut = createCouponCut(options);
  const { simulation } = cut;
  const edgeDwellS = cut.waitUntilThrough();
  const { layerMm } = simulation.grid;
  const mean = { drag: 0, drags: 0, steps: 0, under: 0, top: 0, through: 0, volts: 0, lit: 0 };
  const angle = createSteadyAngle();
  const samples = createSamples();
  while (cut.alongMm < COUPON_WIDTH_MM + RUN_OFF_MM) {
    cut.advance(speedMmPerS);
    appendSample(samples, simulation.sample);
    if (cut.alongMm < STEADY_FROM_MM || cut.alongMm > STEADY_TO_MM) continue;
    const { sample } = simulation;
    mean.steps++;
    if (sample.underMm3PerS > 0) {
      mean.drags++;
      mean.drag += frontMm(cut, layerMm / 2) - frontMm(cut, thicknessMm - layerMm / 2);
    }
    mean.under += sample.underMm3PerS;
    mean.top += sample.topMm3PerS;
    mean.through += sample.throughFraction;
    if (!Number.isNaN(sample.arcVoltageV)) {
      mean.volts += sample.arcVoltageV;
      mean.lit++;
    }
    angle.take(sample);
  }
  cut.letGo();
  const kerf: KerfWidths = measureKerf(simulation, cut.lineX, STEADY_FROM_MM, STEADY_TO_MM, cut.tanX);
  const thrown = mean.under + mean.top;
  const dragMm = mean.drags > 0 ? mean.drag / mean.drags : 0;
  return {
    sparkAngleDeg: angle.meanDeg(),
    sparkSide: thrown < 1e-9 ? 'none' : mean.under > 0.9 * thrown ? 'under' : mean.top > 0.9 * thrown ? 'top' : 'both',
    severedFraction: edgeDwellS === null ? 0 : severedFraction(cut),
    topKerfMm: kerf.topMm,
    bottomKerfMm: kerf.bottomMm,
    dragMm,
    throughPowerFraction: mean.through / mean.steps,
    edgeDwellS,
    arcVoltageV: mean.lit > 0 ? mean.volts / mean.lit : null,
    energy: { ...simulation.ledger },
    quality: couponQuality(cut, options, samples, dragMm),
  };
}

/** Place of the front along the travel at a depth, mm: solid metal summed backward from well ahead to the first open cell. */
function frontMm(cut: CouponCut, depthMm: number): number {
  const { simulation, alongMm, tanX, tanY } = cut;
  const { cellMm } = simulation.grid;
  const ahead = alongMm + 8 - (alongMm % cellMm);
  const x = cut.lineX(alongMm) - tanX * depthMm;
  let solid = 0;
  for (let back = 0; back < 60; back += cellMm) {
    const gone = simulation.goneAt(x, ahead - back - tanY * depthMm, depthMm);
    if (gone >= 0.999) break;
    solid += (1 - gone) * cellMm;
  }
  return ahead - solid - tanY * depthMm;
}

function severedFraction(cut: CouponCut): number {
  const places = steadyPlaces();
  return places.filter((yMm) => cut.isOpen(yMm)).length / places.length;
}
