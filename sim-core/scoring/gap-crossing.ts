import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { lossOutside, mostCostly } from './judge-ticks.ts';
import type { Evidence, FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** Marks for an opening reach 0 at this many times the tolerated delay. */
const ZERO_AT_TIMES = 3;

/** Strikes again per opening that are no more than the openings themselves ask for, and from which on all marks for it are lost. */
const STRIKES_PER_GAP = 1.5;
const STRIKES_ZERO = 4;
/** Share of the measure that too many strikes can cost: the rest is the time and the arc lost. */
const STRIKES_SHARE = 0.4;

/** An opening of the plate on the line, with metal before and behind it, mm along the line. */
interface Gap {
  fromMm: number;
  toMm: number;
}

/**
 * What the openings of the plate cost: at each, the time from when the torch is over metal again until the arc is on it, arcs
 * that did not come back at all, and strikes beyond one for each opening. Value: that time, s; strikes per opening.
 */
export function markGapCrossing(input: MeasureInput): MeasureResult {
  const { trace, drill, samples } = input;
  const allowed = drill.tolerances.gapDelayS;
  const band = { low: null, high: allowed, unit: 's' } as const;
  const gaps = gapsOf(input);
  if (gaps.length === 0 || trace.transferIndex < 0) return { mark: 0, band, evidence: [] };
  const { arcState, xMm, yMm, restrikes } = samples.columns;
  const found: Evidence[] = [];
  let lost = 0;
  // Before the start was left the arc may have touched the line beyond the openings.
  let at = trace.departIndex < 0 ? trace.transferIndex : trace.departIndex;
  const tell = (fault: FaultId, from: number, to: number, value: number, loss: number, unit: 's' | 'none'): void => {
    lost += loss;
    const place = { xMm: xMm[from], yMm: yMm[from] };
    found.push({ fromTick: from + 1, toTick: to + 1, ...place, value, unit, fault, lostMarks: 100 * loss });
  };
  for (const gap of gaps) {
    let over = at;
    while (over < trace.ticks && trace.sMm[over] < gap.toMm) over++;
    if (over >= trace.ticks) {
      const from = firstBeyond(input, at, gap.fromMm);
      tell('gap-crossing.arc-lost', from, trace.ticks - 1, (trace.ticks - from) / TICK_HZ, 1 / gaps.length, 's');
      continue;
    }
    let back = over;
    while (back < trace.ticks && arcState[back] !== TRANSFERRED) back++;
    at = over;
    const delayS = (back - over) / TICK_HZ;
    const never = back >= trace.ticks;
    const loss = never ? 1 : lossOutside(delayS, 0, allowed, -1, allowed * ZERO_AT_TIMES);
    const to = never ? trace.ticks - 1 : back;
    if (loss > 0) tell(never ? 'gap-crossing.arc-lost' : 'gap-crossing.slow', over, to, delayS, loss / gaps.length, 's');
  }
  const perGap = strikes(input) / gaps.length;
  const often = STRIKES_SHARE * lossOutside(perGap, 0, STRIKES_PER_GAP, -1, STRIKES_ZERO);
  if (often > 0) {
    let first = trace.transferIndex;
    while (first < trace.ticks - 1 && restrikes[first] === restrikes[trace.transferIndex]) first++;
    tell('gap-crossing.struck-often', first, trace.ticks - 1, perGap, often, 'none');
  }
  return { mark: lost >= 1 ? 0 : 100 * (1 - lost), band, evidence: mostCostly(found) };
}

/** Arcs that went on to the metal after the first. */
function strikes(input: MeasureInput): number {
  const { arcState } = input.samples.columns;
  let count = 0;
  for (let i = input.trace.transferIndex + 1; i < input.trace.ticks; i++) {
    if (arcState[i] === TRANSFERRED && arcState[i - 1] !== TRANSFERRED) count++;
  }
  return count;
}

function firstBeyond(input: MeasureInput, from: number, sMm: number): number {
  const { trace } = input;
  for (let i = from; i < trace.ticks; i++) if (trace.sMm[i] >= sMm) return i;
  return trace.ticks - 1;
}

function gapsOf(input: MeasureInput): Gap[] {
  const { binGap, lengthMm } = input.trace;
  const binMm = lengthMm / binGap.length;
  const gaps: Gap[] = [];
  for (let bin = 0; bin < binGap.length; bin++) {
    if (binGap[bin] === 0) continue;
    const from = bin;
    while (bin + 1 < binGap.length && binGap[bin + 1] === 1) bin++;
    // An opening at either end of the line is crossed by nobody.
    if (from > 0 && bin < binGap.length - 1) gaps.push({ fromMm: from * binMm, toMm: (bin + 1) * binMm });
  }
  return gaps;
}
