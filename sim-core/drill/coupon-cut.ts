import type { MaterialId } from '../materials/material-id.ts';
import { abs, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { createSimulation, type KeyedSimulation } from '../run/simulation.ts';
import { type HandTick, type RigId, TICK_HZ } from '../run/types.ts';

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

export const COUPON_LENGTH_MM = 120;
export const COUPON_WIDTH_MM = 60;
/** The steady part: the middle half of the travel. */
export const STEADY_FROM_MM = COUPON_WIDTH_MM * 0.25;
export const STEADY_TO_MM = COUPON_WIDTH_MM * 0.75;
/**
 * The line runs 1 in 60 askew: half a millimetre, two cells, over the middle half. A line along the rows of cells would beat
 * with them, and a kerf's width would come in steps of two cells.
 */
const SKEW = 1 / 60;
const LENGTHENING = Math.sqrt(1 + SKEW * SKEW);
/** Longest wait at the edge, s. */
export const LONGEST_WAIT_S = 10;

/** A coupon under the torch: tip at stand-off over the middle of the long side, then along the line at the speed it is told. */
export interface CouponCut {
  readonly simulation: KeyedSimulation;
  /** Way of the axis's foot across the coupon, mm. */
  alongMm: number;
  readonly tanX: number;
  readonly tanY: number;
  /** Place of the line on the top surface, mm, at a way across. */
  lineX(yMm: number): number;
  /** Arc on over the edge until the axis is open; the time that took, s, or null where it did not open within 10 s. */
  waitUntilThrough(): number | null;
  /** One tick further at a speed, mm/s. */
  advance(speedMmPerS: number): void;
  letGo(): void;
  /** True where the axis's line at a way across is open from top to underside. */
  isOpen(yMm: number): boolean;
}

/** Throws RangeError with one sentence where an option cannot be used. */
export function createCouponCut(options: Omit<CouponOptions, 'speedMmPerS'>): CouponCut {
  const { material, thicknessMm, currentA, rig, standOffMm = 1.5, travelAngleDeg = 0, workAngleDeg = 0 } = options;
  if (!(standOffMm >= 0 && standOffMm <= 100)) throw new RangeError(`The stand-off, ${standOffMm} mm, is not between 0 and 100.`);
  for (const lean of [travelAngleDeg, workAngleDeg]) {
    if (!(abs(lean) <= 70)) throw new RangeError(`A lean of ${lean} deg is beyond 70.`);
  }
  const plate = { material, thicknessMm, lengthMm: COUPON_LENGTH_MM, widthMm: COUPON_WIDTH_MM };
  const simulation = createSimulation({ ...plate, rig, currentA, seed: 0 });
  // Travel runs along +y: a lean to the left of travel leans toward -x. The tip is set so that the axis meets the line.
  const leanXDeg = -workAngleDeg;
  const tanX = tan(leanXDeg * RAD_PER_DEG);
  const tanY = tan(travelAngleDeg * RAD_PER_DEG);
  const lineX = (yMm: number): number => COUPON_LENGTH_MM / 2 + SKEW * (yMm - COUPON_WIDTH_MM / 2);
  const pose = { xMm: 0, yMm: 0, heightMm: standOffMm, leanXDeg, leanYDeg: travelAngleDeg, trigger: true };
  const input: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const step = (): void => {
    pose.xMm = lineX(cut.alongMm) + tanX * standOffMm;
    pose.yMm = cut.alongMm + tanY * standOffMm;
    simulation.step(quantiseHand(pose, input));
  };
  const cut: CouponCut = {
    simulation,
    alongMm: 0,
    tanX,
    tanY,
    lineX,
    waitUntilThrough() {
      let litTicks = 0;
      for (let tick = 0; tick < (LONGEST_WAIT_S + 3.5) * TICK_HZ; tick++) {
        step();
        if (simulation.sample.arcState === 3) litTicks++;
        if (litTicks > LONGEST_WAIT_S * TICK_HZ) break;
        if (litTicks > 0 && simulation.isOpenAlongAxis(lineX(0), 0.15, leanXDeg, travelAngleDeg)) return litTicks / TICK_HZ;
      }
      return null;
    },
    advance(speedMmPerS) {
      cut.alongMm += speedMmPerS / TICK_HZ / LENGTHENING;
      step();
    },
    letGo() {
      input.trigger = 0;
      simulation.step(input);
    },
    isOpen: (yMm) => simulation.isOpenAlongAxis(lineX(yMm), yMm, leanXDeg, travelAngleDeg),
  };
  return cut;
}

/** Places of the steady part at which its severance is judged, mm across. */
export function steadyPlaces(): number[] {
  const places: number[] = [];
  for (let y = STEADY_FROM_MM; y < STEADY_TO_MM; y += 0.1) places.push(y);
  return places;
}
