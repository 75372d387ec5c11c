import { atan, DEG_PER_RAD, RAD_PER_DEG, tan } from '../math/elementary.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { PHASE } from './path-trace.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 at this many times the tolerated lean. */
const ZERO_AT_TIMES = 2.5;

/** How upright the handle is held while the arc burns on the line: a leaning arc cuts a leaning face. */
export function markSquareness(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const { travelAngleDeg, workAngleDeg } = input.samples.columns;
  const allowed = drill.tolerances.leanDeg;
  const leanDeg = (i: number): number => {
    if (travelAngleDeg[i] === 0 && workAngleDeg[i] === 0) return 0;
    const ahead = tan(travelAngleDeg[i] * RAD_PER_DEG);
    const left = tan(workAngleDeg[i] * RAD_PER_DEG);
    return atan(Math.sqrt(ahead * ahead + left * left)) * DEG_PER_RAD;
  };
  const { lostShare, evidence } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut,
    loss: (i) => lossOutside(leanDeg(i), 0, allowed, -1, allowed * ZERO_AT_TIMES),
    value: leanDeg,
    fault: () => 'squareness.leaning',
    unit: 'deg',
    byDistance: 0.5,
  });
  return { mark: 100 * (1 - lostShare), band: { low: null, high: allowed, unit: 'deg' }, evidence };
}
