import { abs, clamp } from '../math/elementary.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import { brokenOff } from './broken-off.ts';
import { judgeTicks, mostCostly } from './judge-ticks.ts';
import { leadsOut } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { Evidence, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';
import { shakeMm } from './shake.ts';
import { tipWayMm } from './tip-way.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** Getting under way and coming to the end are no unsteadiness, s. */
const GRACE_S = 0.4;

/** Marks reach 0 at this many times the tolerated variation. */
const ZERO_AT_TIMES = 4;

/**
 * What the speed's own span does not see: a shake to and fro along the line that averages out in it. Root mean square of the place
 * less its mean over that span, mm: what a trembling hand has of it, and from where on the mark is 0.
 */
const SHAKE_RIGHT_MM = 0.2;
const SHAKE_ZERO_MM = 0.4;
const SHAKE_HALF_TICKS = TICK_HZ / 8;

/** The arc from one place to another in one tick, mm: what a pointer on a machine that stalls catches up with, and from where on the mark is 0. */
const LEAP_RIGHT_MM = 3;
const LEAP_ZERO_MM = 6;

/** Resting on the line is a halt, however long the rest of the run: s that are no matter, and from where on the mark is 0. */
const REST_RIGHT_S = 0.5;
const REST_ZERO_S = 2;
const REST_SHARE = 0.1;

/** Letting the trigger go on the line and striking anew, where the drill has one pass and no openings: who lost the cut may mend it so often, and each time more costs this share of the mark. */
const BROKEN_OFF_FREE = 2;
const BROKEN_OFF_LOSS = 0.8;

/** Going over the line again, more often than the drill has passes: share of it that a missed spot asks for, and from where on the mark is 0. */
const AGAIN_RIGHT_SHARE = 0.15;
const AGAIN_ZERO_SHARE = 0.3;

/** A speed this far below the hand's own pace, as a share of it, is a halt. */
const HALT_SHARE = -0.75;

/** A share of the mark that was lost in one way, with the stretches that lost it. */
interface Loss {
  lost: number;
  evidence: Evidence[];
}

/**
 * How even the speed is, whatever its height: root mean square of its distance from the hand's own pace, as a share of the pace;
 * what shakes to and fro within the speed's own span, leaps, rests on the line, and goes over it again. The worst of these counts, and each
 * time that the cut was broken off beside. Value: distance from the pace; shake, leap or way gone over again, mm; rest or time without the
 * arc, s.
 */
export function markSteadiness(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const band = { low: null, high: drill.tolerances.speedVariation, unit: 'share' } as const;
  const from = trace.departIndex + GRACE_S * TICK_HZ;
  const to = trace.lastCutIndex - GRACE_S * TICK_HZ;
  const counts = (i: number): boolean => trace.phase[i] === PHASE.cut && i >= from && i <= to && !leadsOut(input, i);
  let count = 0;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (!counts(i)) continue;
    const speed = trace.speedMmPerS[i];
    count++;
    sum += speed;
    squares += speed * speed;
  }
  // The mean by distance: the pace while under way, which a halt does not pull down.
  const pace = sum > 0 ? squares / sum : 0;
  if (!(pace > 0)) return { mark: 0, band, evidence: [] };
  const variance = squares / count - (2 * pace * sum) / count + pace * pace;
  const variation = Math.sqrt(variance > 0 ? variance : 0) / pace;
  const ways = [
    uneven(input, counts, pace, variation),
    shaken(input),
    leapt(input),
    rested(input, counts, pace),
    goneOverAgain(input),
  ];
  const worst = ways.reduce((most, loss) => (loss.lost > most.lost ? loss : most));
  const off = lettingGo(input);
  const evidence = mostCostly([...worst.evidence, ...off.evidence]);
  return { mark: 100 * (1 - clamp(worst.lost + off.lost, 0, 1)), band, evidence };
}

function uneven(input: MeasureInput, counts: (index: number) => boolean, pace: number, variation: number): Loss {
  const { trace, drill } = input;
  const allowed = drill.tolerances.speedVariation;
  const lost = clamp((variation - allowed) / (allowed * (ZERO_AT_TIMES - 1)), 0, 1);
  if (lost === 0) return { lost, evidence: [] };
  // The stretches that make the variation: those farther from the pace than is tolerated, each by its square.
  const unevenness = (i: number): number => trace.speedMmPerS[i] / pace - 1;
  const { lostShare, evidence } = judgeTicks(input, {
    counts,
    loss: (i) => (abs(unevenness(i)) > allowed ? unevenness(i) * unevenness(i) : 0),
    value: unevenness,
    fault: () => 'steadiness.uneven',
    unit: 'share',
    byDistance: 0,
  });
  const scale = lostShare > 0 ? lost / lostShare : 0;
  for (const stretch of evidence) {
    stretch.lostMarks *= scale;
    if (stretch.value < HALT_SHARE) stretch.fault = 'steadiness.halted';
  }
  return { lost, evidence };
}

/** Getting under way and coming to the end shake nothing, so that all of the cut counts. */
function shaken(input: MeasureInput): Loss {
  const { trace } = input;
  const value = shakeMm(input, SHAKE_HALF_TICKS, (i) => trace.phase[i] === PHASE.cut);
  const lost = clamp((value - SHAKE_RIGHT_MM) / (SHAKE_ZERO_MM - SHAKE_RIGHT_MM), 0, 1);
  const stretch = stretchOf(input, trace.departIndex, trace.lastCutIndex);
  return { lost, evidence: [{ ...stretch, value, unit: 'mm', fault: 'steadiness.uneven', lostMarks: 100 * lost }] };
}

function leapt(input: MeasureInput): Loss {
  const { arcState } = input.samples.columns;
  let [value, to] = [0, 0];
  for (let i = 1; i < input.trace.ticks; i++) {
    if (arcState[i] !== TRANSFERRED || arcState[i - 1] !== TRANSFERRED) continue;
    const wayMm = tipWayMm(input.samples, i - 1, i);
    if (wayMm > value) [value, to] = [wayMm, i];
  }
  const lost = clamp((value - LEAP_RIGHT_MM) / (LEAP_ZERO_MM - LEAP_RIGHT_MM), 0, 1);
  return {
    lost,
    evidence: [{ ...stretchOf(input, to, to), value, unit: 'mm', fault: 'steadiness.uneven', lostMarks: 100 * lost }],
  };
}

function rested(input: MeasureInput, counts: (index: number) => boolean, pace: number): Loss {
  const { trace } = input;
  const rests = (i: number): boolean => counts(i) && trace.speedMmPerS[i] < REST_SHARE * pace;
  const stretches: { from: number; to: number }[] = [];
  let ticks = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (!rests(i)) continue;
    ticks++;
    const last = stretches.at(-1);
    if (last && last.to === i - 1) last.to = i;
    else stretches.push({ from: i, to: i });
  }
  const lost = clamp((ticks / TICK_HZ - REST_RIGHT_S) / (REST_ZERO_S - REST_RIGHT_S), 0, 1);
  const evidence = stretches.map(({ from, to }): Evidence => {
    const share = (to - from + 1) / ticks;
    const value = (to - from + 1) / TICK_HZ;
    return { ...stretchOf(input, from, to), value, unit: 's', fault: 'steadiness.halted', lostMarks: 100 * lost * share };
  });
  return { lost, evidence };
}

function goneOverAgain(input: MeasureInput): Loss {
  const { trace, drill } = input;
  const bins = trace.binPasses.length;
  let again = 0;
  let from = trace.ticks;
  let to = 0;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binPasses[bin] <= drill.intended.passes) continue;
    again++;
    if (trace.binIndex[bin] < from) from = trace.binIndex[bin];
    if (trace.binIndex[bin] > to) to = trace.binIndex[bin];
  }
  const lost = clamp((again / bins - AGAIN_RIGHT_SHARE) / (AGAIN_ZERO_SHARE - AGAIN_RIGHT_SHARE), 0, 1);
  if (lost === 0) return { lost, evidence: [] };
  const value = (again * trace.lengthMm) / bins;
  return {
    lost,
    evidence: [{ ...stretchOf(input, from, to), value, unit: 'mm', fault: 'steadiness.halted', lostMarks: 100 * lost }],
  };
}

function lettingGo(input: MeasureInput): Loss {
  const evidence = brokenOff(input)
    .slice(BROKEN_OFF_FREE)
    .map(({ from, to }): Evidence => {
      const value = (to - from + 1) / TICK_HZ;
      return { ...stretchOf(input, from, to), value, unit: 's', fault: 'steadiness.halted', lostMarks: 100 * BROKEN_OFF_LOSS };
    });
  return { lost: BROKEN_OFF_LOSS * evidence.length, evidence };
}

/** Where and when a stretch of ticks was, by index. */
function stretchOf({ samples }: MeasureInput, from: number, to: number): Pick<Evidence, 'fromTick' | 'toTick' | 'xMm' | 'yMm'> {
  const { xMm, yMm } = samples.columns;
  return { fromTick: from + 1, toTick: to + 1, xMm: xMm[from], yMm: yMm[from] };
}
