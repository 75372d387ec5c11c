import { clamp } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Leaving after this share of the core's own pause, or sooner, is no pause at all. */
const NO_PAUSE_SHARE = 0.4;

/** Best mark of a hand that left before the arc was through, however long it had waited. */
const BEST_BEFORE_THROUGH = 60;

/** Waiting this much longer than tolerated brings the mark to 0: twice the pause itself, at least so many seconds. */
const LEAST_LATE_ZERO_S = 1.5;

/** The pause at the edge, from the arc taking hold until the hand moves off: until the arc is through, and not much longer. */
export function markEdgeDwell(input: MeasureInput): MeasureResult {
  const { trace, drill, samples } = input;
  const neededS = input.context.window.edgeDwellS;
  if (neededS === null) return { mark: 0, band: null, evidence: [] };
  const lateStartS = drill.tolerances.lateStartS;
  const band = { low: neededS, high: neededS + lateStartS, unit: 's' } as const;
  const { transferIndex, departIndex, throughIndex } = trace;
  if (departIndex < 0) return { mark: 0, band, evidence: [] };
  const pausedS = (departIndex - transferIndex) / TICK_HZ;
  const through = throughIndex >= 0 && throughIndex <= departIndex;
  const evidence = (fault: Evidence['fault'], lostMarks: number): Evidence[] =>
    lostMarks < 0.05
      ? []
      : [
          {
            fromTick: transferIndex + 1,
            toTick: departIndex + 1,
            xMm: samples.columns.xMm[departIndex],
            yMm: samples.columns.yMm[departIndex],
            value: pausedS,
            unit: 's',
            fault,
            lostMarks,
          },
        ];
  if (!through) {
    const waited = clamp((pausedS / neededS - NO_PAUSE_SHARE) / (1 - NO_PAUSE_SHARE), 0, 1);
    const mark = BEST_BEFORE_THROUGH * waited;
    return { mark, band, evidence: evidence('edge-dwell.left-early', 100 - mark) };
  }
  // Late is counted from when the arc was through in this very run: a hand that watched the sparks is never too late.
  const lateS = (departIndex - throughIndex) / TICK_HZ - lateStartS;
  const zeroS = 2 * neededS > LEAST_LATE_ZERO_S ? 2 * neededS : LEAST_LATE_ZERO_S;
  const mark = 100 * (1 - clamp(lateS / zeroS, 0, 1));
  return { mark, band, evidence: evidence('edge-dwell.left-late', 100 - mark) };
}
