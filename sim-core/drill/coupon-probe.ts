import { jetReachMm } from '../physics/nozzle.ts';
import { createCouponCut, STEADY_FROM_MM, STEADY_TO_MM, steadyPlaces } from './coupon-cut.ts';
import type { CutCondition } from './cut-condition.ts';
import { createSteadyAngle } from './steady-angle.ts';

/** Severed share of the path under which a cut counts as lost. */
export const COMPLETE_SHARE = 0.97;

/** What a search wants to know of a coupon; equal to what `runCoupon` would tell. */
export interface ProbedCoupon {
  complete: boolean;
  /** Steady spark angle, deg; null where there is none to read, undefined where it was not waited for. */
  sparkAngleDeg?: number | null;
}

/**
 * Coupons of one condition, upright, at any number of speeds, cut only as far as the question needs. The start, the same for
 * every speed, is cut once and gone back to. A place that lies farther behind than the jet reaches stays as it is, so a cut
 * is known to be lost long before the far side.
 */
export interface CouponProbe {
  /** Wait until the edge is open, s; null where it does not open. */
  readonly edgeDwellS: number | null;
  cut(speedMmPerS: number, needAngle: boolean): ProbedCoupon;
  /** Speeds cut so far of which the angle is known, rising. */
  angleSpeeds(): number[];
  /** Spark angle at a speed cut before, deg; null where none is known. */
  angleAt(speedMmPerS: number): number | null;
}

export function createCouponProbe(condition: CutCondition): CouponProbe {
  const cut = createCouponCut(condition);
  const { simulation } = cut;
  const edgeDwellS = cut.waitUntilThrough();
  const atEdge = simulation.snapshot();
  const places = steadyPlaces();
  const mayStayClosed = places.filter((_, closed) => (places.length - closed) / places.length >= COMPLETE_SHARE).length - 1;
  const known = new Map<number, ProbedCoupon>();

  function probe(speedMmPerS: number, needAngle: boolean): ProbedCoupon {
    simulation.putBack(atEdge);
    cut.alongMm = 0;
    const angle = createSteadyAngle();
    const reachMm = jetReachMm(condition.currentA, simulation.sample.standOffMm + condition.thicknessMm) + simulation.grid.cellMm;
    let judged = 0;
    let closed = 0;
    for (;;) {
      cut.advance(speedMmPerS);
      if (cut.alongMm >= STEADY_FROM_MM && cut.alongMm <= STEADY_TO_MM) angle.take(simulation.sample);
      while (judged < places.length && places[judged]! < cut.alongMm - reachMm) if (!cut.isOpen(places[judged++]!)) closed++;
      const lost = closed > mayStayClosed;
      const angleKnown = cut.alongMm > STEADY_TO_MM;
      if (lost && !needAngle && !angleKnown) return { complete: false };
      if (angleKnown && (lost || judged === places.length)) return { complete: !lost, sparkAngleDeg: angle.meanDeg() };
    }
  }

  return {
    edgeDwellS,
    cut(speedMmPerS, needAngle) {
      const before = known.get(speedMmPerS);
      if (before && (!needAngle || before.sparkAngleDeg !== undefined)) return before;
      const result = edgeDwellS === null ? { complete: false, sparkAngleDeg: null } : probe(speedMmPerS, needAngle);
      known.set(speedMmPerS, result);
      return result;
    },
    angleSpeeds: () =>
      [...known].flatMap(([speed, { sparkAngleDeg }]) => (sparkAngleDeg === undefined ? [] : speed)).sort((a, b) => a - b),
    angleAt: (speedMmPerS) => known.get(speedMmPerS)?.sparkAngleDeg ?? null,
  };
}
