import { floor } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';
import { mostCostly } from './judge-ticks.ts';
import { PHASE } from './phase.ts';
import type { Evidence, FaultId, FigureUnit, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';
import { SEVERED_GAP_MM } from './severance.ts';

/** Falling short of the end by this much brings the mark to 0, mm. */
const SHORT_ZERO_MM = 6;
/** Within this distance the end counts as reached, mm. */
const REACHED_MM = 1;
/** Marks lost per millimetre of tab left standing at the end. */
const LOST_PER_TAB_MM = 25;
/** The last stretch of the line in which an uncut piece is a tab, mm beside the thickness. */
const TAB_ZONE_MM = 3;
/** Time the trigger may stay pressed after the hand has come to rest at or past the end, s. */
const LET_GO_S = 1;
/** Within this distance of the farthest place the hand is at rest, mm. */
const REST_MM = 0.5;
/** Share of the line before its last stretch that may be uncut for a tab still to be a matter of the finish. */
const LOST_BEFORE_SHARE = 0.1;
/** Keeping it pressed this much longer brings the mark to 0, s. */
const LET_GO_ZERO_S = 3;

/** The finish: the end is reached, nothing is left standing there, and the trigger is let go in time and place. */
export function markEndOfCut(input: MeasureInput): MeasureResult {
  const { trace, drill, samples } = input;
  const { arcState, xMm, yMm } = samples.columns;
  const found: Evidence[] = [];
  const tell = (fault: FaultId, from: number, to: number, value: number, unit: FigureUnit, lostMarks: number): void => {
    const at = to < 0 ? 0 : to;
    const fromTick = (from < 0 ? 0 : from) + 1;
    found.push({ fromTick, toTick: at + 1, xMm: xMm[at], yMm: yMm[at], value, unit, fault, lostMarks });
  };
  const band = { low: null, high: drill.tolerances.overrunMm, unit: 'mm' } as const;
  if (trace.lastCutIndex < 0) return { mark: 0, band, evidence: [] };

  const last = lastArcIndex(input);
  const { furthestMm, endIndex } = reachedEnd(input, last);
  if (endIndex < 0) {
    const shortMm = trace.lengthMm - furthestMm;
    tell('end-of-cut.stopped-short', trace.lastCutIndex, last, shortMm, 'mm', (100 * shortMm) / SHORT_ZERO_MM);
  } else {
    const tabMm = tabLengthMm(input);
    if (tabMm > SEVERED_GAP_MM) tell('end-of-cut.tab-left', endIndex, endIndex, tabMm, 'mm', LOST_PER_TAB_MM * tabMm);
    let overrunMm = 0;
    let overrunIndex = endIndex;
    for (let i = endIndex; i <= last; i++) {
      if (arcState[i] < 2 || arcState[i] > 3) continue;
      const pastMm = trace.sMm[i] - trace.lengthMm;
      if (pastMm > overrunMm) {
        overrunMm = pastMm;
        overrunIndex = i;
      }
    }
    const allowedMm = drill.tolerances.overrunMm;
    if (overrunMm > allowedMm) {
      tell('end-of-cut.overrun', endIndex, overrunIndex, overrunMm, 'mm', (50 * (overrunMm - allowedMm)) / allowedMm);
    }
    // Of several passes, the last is what the trigger is held for.
    const pressed = pressedIndex(input, last);
    const passedIndex = firstAtRest(input, endIndex > pressed ? endIndex : pressed, last);
    const heldS = (last - passedIndex) / TICK_HZ;
    if (heldS > LET_GO_S)
      tell('end-of-cut.arc-left-on', passedIndex, last, heldS, 's', (100 * (heldS - LET_GO_S)) / LET_GO_ZERO_S);
  }
  let lost = 0;
  for (const evidence of found) {
    if (evidence.lostMarks > 100) evidence.lostMarks = 100;
    lost += evidence.lostMarks;
  }
  return { mark: lost >= 100 ? 0 : 100 - lost, band, evidence: mostCostly(found) };
}

/**
 * How far along the line the arc came, mm, and the first index at which the end was reached; -1 where it never was. The end is
 * also reached where the rest of the line is open already: the last of an outline falls before the torch is there.
 */
function reachedEnd(input: MeasureInput, last: number): { furthestMm: number; endIndex: number } {
  const { trace } = input;
  let furthestMm = 0;
  let furthestIndex = 0;
  for (let i = 0; i <= last; i++) {
    if (trace.phase[i] === PHASE.away || trace.phase[i] === PHASE.gap || trace.sMm[i] <= furthestMm) continue;
    furthestMm = trace.sMm[i];
    furthestIndex = i;
    if (furthestMm >= trace.lengthMm - REACHED_MM) return { furthestMm, endIndex: i };
  }
  const bins = trace.binSevered.length;
  let bin = floor((furthestMm * bins) / trace.lengthMm);
  while (bin < bins && trace.binSevered[bin] === 1) bin++;
  return { furthestMm, endIndex: bin >= bins ? furthestIndex : -1 };
}

/** First index, from one on, after which the hand goes on no farther: what it holds the trigger for then serves nothing. */
function firstAtRest(input: MeasureInput, from: number, last: number): number {
  const { sMm } = input.trace;
  let furthestMm = 0;
  for (let i = from; i <= last; i++) if (sMm[i] > furthestMm) furthestMm = sMm[i];
  for (let i = from; i < last; i++) if (sMm[i] >= furthestMm - REST_MM) return i;
  return last;
}

/** First index of the last time that the trigger was held. */
function pressedIndex(input: MeasureInput, last: number): number {
  const { arcState } = input.samples.columns;
  let first = last;
  while (first > 0 && arcState[first - 1] >= 1 && arcState[first - 1] <= 3) first--;
  return first;
}

/** Last index with the trigger held: gas before the arc, pilot, or arc burning. */
function lastArcIndex(input: MeasureInput): number {
  const { arcState } = input.samples.columns;
  for (let i = input.trace.ticks - 1; i >= 0; i--) if (arcState[i] >= 1 && arcState[i] <= 3) return i;
  return -1;
}

/** Uncut length in the last stretch of the line; 0 where the cut was being lost before it already, which is no matter of the finish. */
function tabLengthMm(input: MeasureInput): number {
  const { trace, drill } = input;
  if (drill.intended.grooveDepthMm !== null) return 0;
  const bins = trace.binSevered.length;
  const binMm = trace.lengthMm / bins;
  let uncut = 0;
  let uncutBefore = 0;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binSevered[bin] === 1) continue;
    if ((bins - bin) * binMm <= drill.plate.thicknessMm + TAB_ZONE_MM) uncut += binMm;
    else uncutBefore += binMm;
  }
  return uncutBefore > LOST_BEFORE_SHARE * trace.lengthMm ? 0 : uncut;
}
