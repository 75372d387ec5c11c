import { longestStretchMm } from './judge-bins.ts';
import { mostCostly } from './judge-ticks.ts';
import type { PathTrace } from './path-trace.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Longest uncut stretch with which the plate still counts as severed, mm: about what one blow of a hammer parts. */
export const SEVERED_GAP_MM = 1;

/** A groove that does not go through is worth this much of a cut of the same length, times its depth over the thickness. */
const GROOVE_WORTH = 0.6;

/** What a line that got open by scribbling is worth against one that was cut. */
const SCRIBBLED_WORTH = 0.25;

/** Best mark of a line that is not severed all along. */
const BEST_UNSEVERED = 90;

/** Longest stretch of the line that was left uncut, crossed by the arc or never reached, mm; 0 where it is open from end to end. */
export function longestUncutMm(trace: PathTrace): number {
  return longestStretchMm({ trace }, (bin) => trace.binSevered[bin] === 0);
}

/** A cut counts as aside of its line from so many times the tolerated distance and a kerf's breadth on, mm. */
const ASIDE_TIMES = 2;
const ASIDE_KERF_MM = 1;

/** Longest stretch of the line, its lead-in left out, along which the metal was cut aside of it, mm; that it was cut right as well puts nothing back. */
export function longestAsideMm(input: MeasureInput): number {
  const { trace, drill } = input;
  const binMm = trace.lengthMm / trace.binSevered.length;
  const fromMm = drill.tolerances.offLineMm * ASIDE_TIMES + ASIDE_KERF_MM;
  return longestStretchMm(input, (bin) => bin * binMm >= drill.leadInMm && trace.binOffMm[bin] > fromMm);
}

/** How much of the line is open from top to underside when the run is over. Value: length left uncut, mm. */
export function markSeverance(input: MeasureInput): MeasureResult {
  const { trace } = input;
  const bins = trace.binSevered.length;
  let credit = 0;
  let metal = 0;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binGap[bin] === 1) continue;
    metal++;
    credit += trace.binSevered[bin] === 1 ? 1 : GROOVE_WORTH * trace.binDepth[bin];
  }
  const whole = longestUncutMm(trace) <= SEVERED_GAP_MM;
  const share = metal > 0 ? (100 * credit) / metal : 0;
  const open = whole ? 100 : share < BEST_UNSEVERED ? share : BEST_UNSEVERED;
  const mark = open * (SCRIBBLED_WORTH + (1 - SCRIBBLED_WORTH) * trace.purpose);
  const evidence = whole ? [] : gaps(trace).map((gap) => evidenceOf(input, gap));
  return { mark, band: { low: null, high: SEVERED_GAP_MM, unit: 'mm' }, evidence: mostCostly(evidence) };
}

interface Gap {
  from: number;
  to: number;
}

function gaps(trace: PathTrace): Gap[] {
  const found: Gap[] = [];
  const bins = trace.binSevered.length;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binSevered[bin] === 1) continue;
    const last = found.at(-1);
    const crossed = trace.binIndex[bin] >= 0;
    // What was crossed without severing and what was never reached are two faults, also side by side.
    if (last && last.to === bin - 1 && trace.binIndex[bin - 1] >= 0 === crossed) last.to = bin;
    else found.push({ from: bin, to: bin });
  }
  return found;
}

function evidenceOf(input: MeasureInput, gap: Gap): Evidence {
  const { trace } = input;
  const bins = trace.binSevered.length;
  const binMm = trace.lengthMm / bins;
  const crossed = trace.binIndex[gap.from] >= 0;
  let firstTick = trace.ticks;
  let lastTick = crossed ? 1 : trace.ticks;
  let lost = 0;
  for (let bin = gap.from; bin <= gap.to; bin++) {
    lost += (100 * (1 - GROOVE_WORTH * trace.binDepth[bin])) / bins;
    const tick = trace.binIndex[bin] + 1;
    if (tick < 1) continue;
    if (tick < firstTick) firstTick = tick;
    if (tick > lastTick) lastTick = tick;
  }
  const place = input.geometry.pointAt((gap.from + (gap.to - gap.from + 1) / 2) * binMm);
  return {
    fromTick: firstTick < 1 ? 1 : firstTick,
    toTick: lastTick < 1 ? 1 : lastTick,
    xMm: place.xMm,
    yMm: place.yMm,
    value: (gap.to - gap.from + 1) * binMm,
    unit: 'mm',
    fault: crossed ? 'severance.uncut' : 'severance.not-reached',
    lostMarks: lost,
  };
}
