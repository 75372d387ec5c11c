import type { PathFoot, PathGeometry } from '../drill/path-geometry.ts';
import { abs, atan, clamp, cos, DEG_PER_RAD, floor, RAD_PER_DEG, round, sin, tan } from '../math/elementary.ts';
import { ARC_STATES, type Samples, TICK_HZ } from '../run/types.ts';
import type { ScoreContext } from './score-context.ts';

/** Where a tick stands in the cut. */
export const PHASE = { away: 0, dwell: 1, cut: 2, past: 3 } as const;

/** Length of path that is judged as one piece, mm. */
export const BIN_MM = 0.5;

/** The tip is held to be on the line for good or ill within this distance; farther off it is doing something else, mm. */
export const CORRIDOR_MM = 6;

/** Advance from where the arc took hold that counts as having left the edge, mm. */
const DEPARTURE_MM = 1;

/** Half the span over which the speed along the line is taken: short enough to see a jerk, longer than a beat of tremor, s. */
const SPEED_HALF_SPAN_S = 0.125;

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/**
 * A run seen from the line it should have cut. All arrays have one entry per tick, index = tick - 1.
 * The place is where the torch axis meets the top surface, which under a lean is not where the tip is.
 */
export interface PathTrace {
  ticks: number;
  lengthMm: number;
  /** Place along the line; below 0 before its start, above lengthMm past its end. */
  sMm: Float64Array;
  /** Distance from the line, left of the cut positive. */
  offsetMm: Float64Array;
  /** Speed along the line; NaN outside dwell and cut. */
  speedMmPerS: Float64Array;
  phase: Uint8Array;
  /** First tick index with the arc on the metal within the corridor; -1 where there is none. */
  transferIndex: number;
  /** First index at which the edge has been left; -1 where it never was. */
  departIndex: number;
  /** Last index in cut phase; -1 where nothing was cut. */
  lastCutIndex: number;
  /** Per piece of the line: tick index at which the arc last crossed it (-1 = never), deepest cut 0 to 1, severed 0 or 1. */
  binIndex: Int32Array;
  binDepth: Float64Array;
  binSevered: Uint8Array;
  /** Share of the line that the arc travelled, 0 to 1. */
  travelledShare: number;
  /** 0 to 1: how much of the way gone with the arc on served the line. Falls to 0 for scribbling. */
  purpose: number;
  /** Mean depth cut along the line over the thickness, 0 to 1. */
  depthShare: number;
}

/** Walks once over the run. Cost grows with its ticks; about 5 ms for a minute. */
export function pathTrace(geometry: PathGeometry, samples: Samples, context: ScoreContext): PathTrace {
  const ticks = samples.length;
  const bins = round(geometry.lengthMm / BIN_MM) < 1 ? 1 : round(geometry.lengthMm / BIN_MM);
  const trace: PathTrace = {
    ticks,
    lengthMm: geometry.lengthMm,
    sMm: new Float64Array(ticks),
    offsetMm: new Float64Array(ticks),
    speedMmPerS: new Float64Array(ticks).fill(Number.NaN),
    phase: new Uint8Array(ticks),
    transferIndex: -1,
    departIndex: -1,
    lastCutIndex: -1,
    binIndex: new Int32Array(bins).fill(-1),
    binDepth: new Float64Array(bins),
    binSevered: new Uint8Array(bins),
    travelledShare: 0,
    purpose: 0,
    depthShare: 0,
  };
  project(trace, geometry, samples);
  phases(trace, samples);
  crossBins(trace, samples);
  speeds(trace);
  severed(trace, samples, context);
  shares(trace, samples);
  return trace;
}

const UPRIGHT = { x: 0, y: 0 };

/** Lean of the handle toward +x and +y at a tick, as tangents. */
function leanTangents(samples: Samples, index: number): { x: number; y: number } {
  const { travelAngleDeg, workAngleDeg, headingRad } = samples.columns;
  if (travelAngleDeg[index] === 0 && workAngleDeg[index] === 0) return UPRIGHT;
  const ahead = tan(travelAngleDeg[index] * RAD_PER_DEG);
  const left = tan(workAngleDeg[index] * RAD_PER_DEG);
  const c = cos(headingRad[index]);
  const s = sin(headingRad[index]);
  return { x: ahead * c - left * s, y: ahead * s + left * c };
}

function project(trace: PathTrace, geometry: PathGeometry, samples: Samples): void {
  const { xMm, yMm, standOffMm, arcState } = samples.columns;
  let s = 0;
  let tracking = false;
  for (let i = 0; i < trace.ticks; i++) {
    const lean = leanTangents(samples, i);
    const x = xMm[i] - standOffMm[i] * lean.x;
    const y = yMm[i] - standOffMm[i] * lean.y;
    // Where the line comes near itself, the arc stays on the branch that it is cutting.
    let foot: PathFoot = tracking ? geometry.nearest(x, y, s, 8) : geometry.nearest(x, y);
    if (tracking && abs(foot.offsetMm) + abs(foot.beyondMm) > CORRIDOR_MM) foot = geometry.nearest(x, y);
    s = foot.sMm;
    trace.sMm[i] = foot.sMm + foot.beyondMm;
    trace.offsetMm[i] = foot.offsetMm;
    tracking = arcState[i] === TRANSFERRED && abs(foot.offsetMm) <= CORRIDOR_MM;
  }
}

function phases(trace: PathTrace, samples: Samples): void {
  const { arcState } = samples.columns;
  for (let i = 0; i < trace.ticks; i++) {
    if (arcState[i] !== TRANSFERRED || abs(trace.offsetMm[i]) > CORRIDOR_MM) continue;
    const s = trace.sMm[i];
    if (s < -CORRIDOR_MM || s > trace.lengthMm + CORRIDOR_MM) continue;
    if (trace.transferIndex < 0) trace.transferIndex = i;
    if (trace.departIndex < 0) {
      const restMm = trace.sMm[trace.transferIndex];
      if (s > restMm + DEPARTURE_MM && s > 0) trace.departIndex = i;
    }
    if (s > trace.lengthMm) trace.phase[i] = PHASE.past;
    else if (trace.departIndex < 0) trace.phase[i] = PHASE.dwell;
    else {
      trace.phase[i] = PHASE.cut;
      trace.lastCutIndex = i;
    }
  }
}

function crossBins(trace: PathTrace, samples: Samples): void {
  const { penetration } = samples.columns;
  const bins = trace.binIndex.length;
  const perMm = bins / trace.lengthMm;
  const binOf = (s: number) => clamp(floor(s * perMm), 0, bins - 1);
  for (let i = 0; i < trace.ticks; i++) {
    if (trace.phase[i] === PHASE.away) continue;
    const joined = i > 0 && trace.phase[i - 1] !== PHASE.away;
    const from = joined ? clamp(trace.sMm[i - 1], 0, trace.lengthMm) : clamp(trace.sMm[i], 0, trace.lengthMm);
    const to = clamp(trace.sMm[i], 0, trace.lengthMm);
    const low = binOf(from < to ? from : to);
    const high = binOf(from < to ? to : from);
    for (let bin = low; bin <= high; bin++) {
      trace.binIndex[bin] = i;
      if (penetration[i] > trace.binDepth[bin]) trace.binDepth[bin] = penetration[i];
    }
  }
}

function speeds(trace: PathTrace): void {
  const half = round(SPEED_HALF_SPAN_S * TICK_HZ);
  for (let first = 0; first < trace.ticks; first++) {
    if (trace.phase[first] === PHASE.away) continue;
    let last = first;
    while (last + 1 < trace.ticks && trace.phase[last + 1] !== PHASE.away) last++;
    for (let i = first; i <= last; i++) {
      if (trace.phase[i] === PHASE.past) continue;
      const from = i - half > first ? i - half : first;
      const to = i + half < last ? i + half : last;
      trace.speedMmPerS[i] = to > from ? ((trace.sMm[to] - trace.sMm[from]) * TICK_HZ) / (to - from) : 0;
    }
    first = last;
  }
}

/** A piece of the line is severed where the line of the axis, as it was held when the arc crossed, is open at the end of the run. */
function severed(trace: PathTrace, samples: Samples, context: ScoreContext): void {
  const { xMm, yMm, standOffMm } = samples.columns;
  for (let bin = 0; bin < trace.binIndex.length; bin++) {
    const i = trace.binIndex[bin];
    if (i < 0) continue;
    const lean = leanTangents(samples, i);
    const open = context.isOpenAlongAxis(
      xMm[i] - standOffMm[i] * lean.x,
      yMm[i] - standOffMm[i] * lean.y,
      atan(lean.x) * DEG_PER_RAD,
      atan(lean.y) * DEG_PER_RAD,
    );
    if (open) trace.binSevered[bin] = 1;
  }
}

/** The way gone is taken in steps of this many ticks, so that tremor adds nothing to it. */
const STRIDE_TICKS = TICK_HZ / 4;

function shares(trace: PathTrace, samples: Samples): void {
  const { xMm, yMm, arcState } = samples.columns;
  const bins = trace.binIndex.length;
  let travelled = 0;
  let depth = 0;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binIndex[bin] >= 0) travelled++;
    depth += trace.binSevered[bin] === 1 ? 1 : trace.binDepth[bin];
  }
  trace.travelledShare = travelled / bins;
  trace.depthShare = depth / bins;

  let wayMm = 0;
  let last = -1;
  for (let i = 0; i < trace.ticks; i++) {
    if (arcState[i] !== TRANSFERRED) continue;
    if (last >= 0 && i - last < STRIDE_TICKS && i < trace.ticks - 1) continue;
    if (last >= 0) {
      const dx = xMm[i] - xMm[last];
      const dy = yMm[i] - yMm[last];
      wayMm += Math.sqrt(dx * dx + dy * dy);
    }
    last = i;
  }
  const useful = travelled * (trace.lengthMm / bins);
  // A detour or a second pass over a missed spot is no scribble: full worth down to four fifths, none below a third.
  trace.purpose = useful === 0 ? 0 : clamp((useful / (wayMm > useful ? wayMm : useful) - 0.33) / 0.47, 0, 1);
}
