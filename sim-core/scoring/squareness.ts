import { abs, atan, DEG_PER_RAD, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { leadsOut } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 at this many times the tolerated lean. */
const ZERO_AT_TIMES = 2.5;

/** A torch that rolls upright as the arc breaks through is still on its way there when the hand moves off, s. */
const ROLL_GRACE_S = 0.4;

/**
 * How near the handle is to the lean that is intended while the arc burns on the line: upright, or at the bevel, or leaned in
 * the travel as the drill says. A lean that leads the arc out over the end of the cut is right there. Value: distance from it.
 */
export function markSquareness(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const { bevelDeg, travelAngleDeg: push } = drill.intended;
  const allowed = drill.tolerances.leanDeg;
  const from = drill.start === 'rolling-pierce' ? trace.departIndex + ROLL_GRACE_S * TICK_HZ : 0;
  const offDeg = (i: number): number => {
    if (trace.aheadTan[i] === 0 && trace.leftTan[i] === 0 && bevelDeg === 0 && push === null) return 0;
    const aheadDeg = atan(trace.aheadTan[i]) * DEG_PER_RAD;
    const leftDeg = atan(trace.leftTan[i]) * DEG_PER_RAD;
    const alongDeg = offAlong(input, i, aheadDeg);
    const along = tan(alongDeg * RAD_PER_DEG);
    const across = tan((leftDeg - bevelDeg) * RAD_PER_DEG);
    return atan(Math.sqrt(along * along + across * across)) * DEG_PER_RAD;
  };
  const { lostShare, evidence, farOffShare } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut && i >= from,
    loss: (i) => lossOutside(abs(offDeg(i)), 0, allowed, -1, allowed * ZERO_AT_TIMES),
    value: offDeg,
    fault: () => 'squareness.leaning',
    unit: 'deg',
    byDistance: 0.5,
  });
  return { mark: 100 * (1 - lostShare), band: { low: null, high: allowed, unit: 'deg' }, evidence, farOffShare };
}

/** Distance of the lean in the travel from what is right there, deg. */
function offAlong(input: MeasureInput, index: number, aheadDeg: number): number {
  const band = input.drill.intended.travelAngleDeg;
  if (band !== null) {
    if (aheadDeg < band.low) return aheadDeg - band.low;
    return aheadDeg > band.high ? aheadDeg - band.high : 0;
  }
  return aheadDeg < 0 && leadsOut(input, index) ? 0 : aheadDeg;
}
