import { TICK_HZ } from '../run/types.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { leadOutMm } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** The stream needs a moment after the edge to take its lean, s. */
const SETTLING_S = 0.5;

/** Marks reach 0 this far outside the band, deg. */
const ZERO_OUTSIDE_DEG = 15;

/** No sparks below at all: the angle has gone, but it is severance that tells why it matters. */
const LOSS_WITHOUT_SPARKS = 0.5;

/** Share of the time under way in which the sparks under the plate trail at the right angle.  */
export function markSparkAngle(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const { low, high } = drill.tolerances.sparkAngleDeg;
  const angle = input.samples.columns.sparkAngleDeg;
  const from = trace.departIndex + SETTLING_S * TICK_HZ;
  // The last stretch before the far edge: the front runs out of metal, or is led out, and the stream swings by itself.
  const untilMm = trace.lengthMm - leadOutMm(input);
  const faultAt = (i: number): FaultId => {
    if (Number.isNaN(angle[i])) return 'spark-angle.none-below';
    return angle[i] < low ? 'spark-angle.too-steep' : 'spark-angle.too-flat';
  };
  const { lostShare, evidence, farOffShare } = judgeTicks(input, {
    counts: (i) => trace.phase[i] === PHASE.cut && i >= from && trace.sMm[i] <= untilMm,
    loss: (i) =>
      Number.isNaN(angle[i])
        ? LOSS_WITHOUT_SPARKS
        : lossOutside(angle[i], low, high, low - ZERO_OUTSIDE_DEG, high + ZERO_OUTSIDE_DEG),
    value: (i) => (Number.isNaN(angle[i]) ? 0 : angle[i]),
    fault: faultAt,
    unit: 'deg',
    byDistance: 0,
  });
  return { mark: 100 * (1 - lostShare), band: { low, high, unit: 'deg' }, evidence, farOffShare };
}
