import type { MaterialId } from '../materials/material-id.ts';
import { abs, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { type KerfWidths, measureKerf } from '../quality/kerf-widths.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { createSimulation } from '../run/simulation.ts';
import { type RigId, TICK_HZ } from '../run/types.ts';

/** What a test coupon is cut with. Leans in deg as on the command line; stand-off in mm. */
export interface CouponOptions {
  material: MaterialId;
  thicknessMm: number;
  currentA: number;
  rig: RigId;
  speedMmPerS: number;
  standOffMm?: number;
  travelAngleDeg?: number;
  workAngleDeg?: number;
}

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
}

export const COUPON_LENGTH_MM = 120;
export const COUPON_WIDTH_MM = 60;
/**
 * The line runs 1 in 60 askew: half a millimetre, two cells, over the middle half. A line along the rows of cells would beat
 * with them, and a kerf's width would come in steps of two cells.
 */
const SKEW = 1 / 60;
/** Longest wait at the edge, s. */
export const LONGEST_WAIT_S = 10;

/**
 * Cuts a coupon 120 x 60 mm from the middle of its long side straight across: tip at stand-off over the edge, arc on, wait
 * until through, then constant speed to the far side. Means are over the middle half of the travel.
 */
export function runCoupon(options: CouponOptions): CouponResult {
  const { material, thicknessMm, currentA, rig, speedMmPerS, standOffMm = 1.5, travelAngleDeg = 0, workAngleDeg = 0 } = options;
  if (!(speedMmPerS > 0 && speedMmPerS <= 1000))
    throw new RangeError(`The speed, ${speedMmPerS} mm/s, is not between 0 and 1000.`);
  if (!(standOffMm >= 0 && standOffMm <= 100)) throw new RangeError(`The stand-off, ${standOffMm} mm, is not between 0 and 100.`);
  for (const lean of [travelAngleDeg, workAngleDeg]) {
    if (!(abs(lean) <= 70)) throw new RangeError(`A lean of ${lean} deg is beyond 70.`);
  }
  const simulation = createSimulation({
    material,
    thicknessMm,
    lengthMm: COUPON_LENGTH_MM,
    widthMm: COUPON_WIDTH_MM,
    rig,
    currentA,
    seed: 0,
  });
  // Travel runs along +y: a lean to the left of travel leans toward -x. The tip is set so that the axis meets the line.
  const leanXDeg = -workAngleDeg;
  const tanX = tan(leanXDeg * RAD_PER_DEG);
  const tanY = tan(travelAngleDeg * RAD_PER_DEG);
  const lineX = (yMm: number): number => COUPON_LENGTH_MM / 2 + SKEW * (yMm - COUPON_WIDTH_MM / 2);
  const lengthening = Math.sqrt(1 + SKEW * SKEW);
  let alongMm = 0;
  const input = quantiseHand({
    xMm: lineX(0),
    yMm: 0,
    heightMm: standOffMm,
    leanXDeg,
    leanYDeg: travelAngleDeg,
    trigger: true,
  });
  const move = (): void => {
    quantiseHand(
      {
        xMm: lineX(alongMm) + tanX * standOffMm,
        yMm: alongMm + tanY * standOffMm,
        heightMm: standOffMm,
        leanXDeg,
        leanYDeg: travelAngleDeg,
        trigger: true,
      },
      input,
    );
    simulation.step(input);
  };

  let edgeDwellS: number | null = null;
  let litTicks = 0;
  for (let tick = 0; tick < (LONGEST_WAIT_S + 3.5) * TICK_HZ; tick++) {
    move();
    if (simulation.sample.arcState === 3) litTicks++;
    if (litTicks > LONGEST_WAIT_S * TICK_HZ) break;
    if (litTicks > 0 && simulation.isOpenAlongAxis(lineX(0), 0.15, leanXDeg, travelAngleDeg)) {
      edgeDwellS = litTicks / TICK_HZ;
      break;
    }
  }

  /** Place of the front along the travel at a depth, mm: solid metal summed backward from well ahead to the first open cell. */
  const frontMm = (depthMm: number): number => {
    const { cellMm } = simulation.grid;
    const ahead = alongMm + 8 - (alongMm % cellMm);
    const x = lineX(alongMm) - tanX * depthMm;
    let solid = 0;
    for (let back = 0; back < 60; back += cellMm) {
      const gone = simulation.goneAt(x, ahead - back - tanY * depthMm, depthMm);
      if (gone >= 0.999) break;
      solid += (1 - gone) * cellMm;
    }
    return ahead - solid - tanY * depthMm;
  };
  const mean = { drag: 0, drags: 0, angle: 0, angles: 0, steps: 0, under: 0, top: 0, through: 0, volts: 0, lit: 0 };
  const stepMm = speedMmPerS / TICK_HZ / lengthening;
  while (alongMm < COUPON_WIDTH_MM + 6) {
    alongMm += stepMm;
    move();
    if (alongMm < COUPON_WIDTH_MM * 0.25 || alongMm > COUPON_WIDTH_MM * 0.75) continue;
    const { sample } = simulation;
    mean.steps++;
    const severing = sample.underMm3PerS > 0;
    mean.drags += severing ? 1 : 0;
    if (severing) mean.drag += frontMm(simulation.grid.layerMm / 2) - frontMm(thicknessMm - simulation.grid.layerMm / 2);
    mean.under += sample.underMm3PerS;
    mean.top += sample.topMm3PerS;
    mean.through += sample.throughFraction;
    if (!Number.isNaN(sample.arcVoltageV)) {
      mean.volts += sample.arcVoltageV;
      mean.lit++;
    }
    if (!Number.isNaN(sample.sparkAngleDeg) && sample.underMm3PerS > sample.topMm3PerS) {
      mean.angle += sample.sparkAngleDeg;
      mean.angles++;
    }
  }
  // The trigger is let go beyond the far side.
  input.trigger = 0;
  simulation.step(input);

  const severed = (openAt: (yMm: number) => boolean): number => {
    let open = 0;
    let places = 0;
    for (let y = COUPON_WIDTH_MM * 0.25; y < COUPON_WIDTH_MM * 0.75; y += 0.1) {
      places++;
      if (openAt(y)) open++;
    }
    return open / places;
  };
  const kerf: KerfWidths = measureKerf(simulation, lineX, COUPON_WIDTH_MM * 0.25, COUPON_WIDTH_MM * 0.75, tanX);
  const angle = mean.angles * 2 >= mean.steps && mean.steps > 0 ? mean.angle / mean.angles : null;
  const thrown = mean.under + mean.top;
  return {
    sparkAngleDeg: angle,
    sparkSide: thrown < 1e-9 ? 'none' : mean.under > 0.9 * thrown ? 'under' : mean.top > 0.9 * thrown ? 'top' : 'both',
    severedFraction: edgeDwellS === null ? 0 : severed((y) => simulation.isOpenAlongAxis(lineX(y), y, leanXDeg, travelAngleDeg)),
    topKerfMm: kerf.topMm,
    bottomKerfMm: kerf.bottomMm,
    dragMm: mean.drags > 0 ? mean.drag / mean.drags : 0,
    throughPowerFraction: mean.through / mean.steps,
    edgeDwellS,
    arcVoltageV: mean.lit > 0 ? mean.volts / mean.lit : null,
    energy: { ...simulation.ledger },
  };
}
