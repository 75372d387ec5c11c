import { clamp } from '../math/elementary.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { lastBurning } from './last-burning.ts';
import type { Evidence, FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** A pause of this share of the core's own, or longer, is long enough; of the lower share, or shorter, is none at all. */
const ENOUGH_SHARE = 0.9;
const NO_PAUSE_SHARE = 0.1;

/** Waiting this much longer than tolerated brings the mark to 0: twice the pause itself, at least so many seconds. */
const LEAST_LATE_ZERO_S = 2.5;

/** Below this share of the window's low end, mm/s, the hand rests; never below the second figure, which tremor reaches. */
const REST_SHARE = 0.35;
const REST_AT_LEAST_MM_PER_S = 2;

/** Ticks on either side over which the speed at the edge is taken: 25 ms, short against the shortest pause. */
const SPAN_TICKS = 6;

/**
 * The pause at the start: how long the hand rests there with the arc on the metal, against the pause after which the core's
 * own coupon of this metal and current is through at the edge.
 */
export function markEdgeDwell(input: MeasureInput): MeasureResult {
  const { trace, drill, samples } = input;
  const { edgeDwellS, windowLowMmPerS } = input.context.window;
  // Where the start is a pierce, the pause is the one that this very hole took.
  const throughS = trace.throughIndex < 0 ? null : burningTicks(input, trace.throughIndex + 1) / TICK_HZ;
  const neededS = drill.start === 'edge' ? edgeDwellS : throughS;
  if (neededS === null || windowLowMmPerS === null) return { mark: 0, band: null, evidence: [] };
  const { lateStartS } = drill.tolerances;
  const band = { low: neededS, high: neededS + lateStartS, unit: 's' } as const;
  const { transferIndex, departIndex } = trace;
  const { arcState, xMm, yMm } = samples.columns;
  if (departIndex < 0) return { mark: 0, band, evidence: waitedItOut(input, neededS + lateStartS) };

  const share = REST_SHARE * windowLowMmPerS;
  const restMmPerS = share > REST_AT_LEAST_MM_PER_S ? share : REST_AT_LEAST_MM_PER_S;
  let restTicks = 0;
  for (let i = transferIndex; i < departIndex; i++) {
    if (arcState[i] !== TRANSFERRED) continue;
    const from = i - SPAN_TICKS < 0 ? 0 : i - SPAN_TICKS;
    const to = i + SPAN_TICKS >= trace.ticks ? trace.ticks - 1 : i + SPAN_TICKS;
    const speed = ((trace.sMm[to] - trace.sMm[from]) * TICK_HZ) / (to - from);
    if (speed < restMmPerS) restTicks++;
  }
  const pausedS = restTicks / TICK_HZ;
  const zeroS = 2 * neededS > LEAST_LATE_ZERO_S ? 2 * neededS : LEAST_LATE_ZERO_S;
  const early = 1 - clamp((pausedS / neededS - NO_PAUSE_SHARE) / (ENOUGH_SHARE - NO_PAUSE_SHARE), 0, 1);
  const late = clamp((pausedS - neededS - lateStartS) / zeroS, 0, 1);
  const mark = 100 * (1 - (early > late ? early : late));
  if (mark >= 99.95) return { mark, band, evidence: [] };
  const fault: FaultId = early > late ? 'edge-dwell.left-early' : 'edge-dwell.left-late';
  const place = { xMm: xMm[departIndex], yMm: yMm[departIndex] };
  return {
    mark,
    band,
    evidence: [
      { fromTick: transferIndex + 1, toTick: departIndex + 1, ...place, value: pausedS, unit: 's', fault, lostMarks: 100 - mark },
    ],
  };
}

/** Ticks with the arc on metal from when it first took hold to before the tick of an index. */
function burningTicks({ trace, samples }: MeasureInput, before: number): number {
  const { arcState } = samples.columns;
  let ticks = 0;
  for (let i = trace.transferIndex; i < before; i++) if (arcState[i] === TRANSFERRED) ticks++;
  return ticks;
}

/** An arc that never left the start: it was waited for until nothing was left under it, or the hand gave up sooner. */
function waitedItOut(input: MeasureInput, longestS: number): Evidence[] {
  const { trace, samples } = input;
  const { xMm, yMm } = samples.columns;
  const from = trace.transferIndex;
  if (from < 0) return [];
  const last = lastBurning(input);
  const value = (last - from + 1) / TICK_HZ;
  if (value <= longestS) return [];
  const place = { xMm: xMm[last], yMm: yMm[last] };
  return [{ fromTick: from + 1, toTick: last + 1, ...place, value, unit: 's', fault: 'edge-dwell.left-late', lostMarks: 100 }];
}
