import type { PathFoot, PathGeometry } from '../drill/path-geometry.ts';
import { THROUGH_SHARE } from '../drill/pierce-coupon.ts';
import type { Drill } from '../drill/schema.ts';
import { abs, cos, round, sin } from '../math/elementary.ts';
import { leanTangents } from '../run/lean-tangents.ts';
import { ARC_STATES, type Samples, TICK_HZ } from '../run/types.ts';
import { goesOverSeam } from './outline-seam.ts';
import { createPathBins, crossBins, type PathBins, tellMetal, tellShares } from './path-bins.ts';
import { CORRIDOR_MM, PHASE } from './phase.ts';
import type { ScoreContext } from './score-context.ts';

/** Advance from where the arc took hold, or broke through, that counts as having left the start, mm. */
const DEPARTURE_MM = 1;
/** As long as a pierce is blind, a hand that rolls upright about its tip moves the axis's foot; from here on it has left, mm. */
const BLIND_DEPARTURE_MM = 5;

/** Half the span over which the speed along the line is taken: short enough to see a jerk, longer than a beat of tremor, s. */
const SPEED_HALF_SPAN_S = 0.125;

const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** States with the trigger held and no arc on the metal. */
const HELD = new Set([ARC_STATES.indexOf('pre-flow'), ARC_STATES.indexOf('pilot')]);

/**
 * A run seen from the line it should have cut. All arrays have one entry per tick, index = tick - 1.
 * The place is where the torch axis meets the top surface, which under a lean is not where the tip is.
 */
export interface PathTrace extends PathBins {
  ticks: number;
  /** Place along the line; below 0 before its start, above lengthMm past its end. */
  sMm: Float64Array;
  /** Distance from the line, left of the cut positive. */
  offsetMm: Float64Array;
  /** Lean of the handle in the direction of the line there and to its left, as tangents. */
  aheadTan: Float64Array;
  leftTan: Float64Array;
  /** Speed along the line; NaN outside dwell, cut and gap. */
  speedMmPerS: Float64Array;
  phase: Uint8Array;
  /** First tick index with the arc on the metal within the corridor; -1 where there is none. */
  transferIndex: number;
  /** First index at which the arc is through a pierce; -1 where it never was. */
  throughIndex: number;
  /** First index at which the start has been left; -1 where it never was. */
  departIndex: number;
  /** Last index in cut phase; -1 where nothing was cut. */
  lastCutIndex: number;
}

/** Walks once over the run. Cost grows with its ticks; about 5 ms for a minute. */
export function pathTrace(drill: Drill, geometry: PathGeometry, samples: Samples, context: ScoreContext): PathTrace {
  const ticks = samples.length;
  const trace: PathTrace = {
    ...createPathBins(drill, geometry),
    ticks,
    sMm: new Float64Array(ticks),
    offsetMm: new Float64Array(ticks),
    aheadTan: new Float64Array(ticks),
    leftTan: new Float64Array(ticks),
    speedMmPerS: new Float64Array(ticks).fill(Number.NaN),
    phase: new Uint8Array(ticks),
    transferIndex: -1,
    throughIndex: -1,
    departIndex: -1,
    lastCutIndex: -1,
  };
  project(trace, drill, geometry, samples);
  phases(trace, drill, samples);
  crossBins(trace, samples);
  speeds(trace, samples);
  tellMetal(trace, drill, geometry, samples, context);
  tellShares(trace, drill, samples);
  return trace;
}

function project(trace: PathTrace, drill: Drill, geometry: PathGeometry, samples: Samples): void {
  const { xMm, yMm, standOffMm, arcState } = samples.columns;
  // Where an outline closes, its end lies on its beginning: until the arc is on its way, only the beginning counts.
  const half = geometry.lengthMm / 2;
  const anywhere = drill.finish === 'close' ? ([half / 2, half / 2] as const) : ([half, geometry.lengthMm] as const);
  let s = 0;
  let tracking = false;
  let begun = false;
  for (let i = 0; i < trace.ticks; i++) {
    const lean = leanTangents(samples, i);
    const x = xMm[i] - standOffMm[i] * lean.x;
    const y = yMm[i] - standOffMm[i] * lean.y;
    const whole = (): PathFoot => (begun ? geometry.nearest(x, y) : geometry.nearest(x, y, anywhere[0], anywhere[1]));
    // Where the line comes near itself, the arc stays on the branch that it is cutting.
    let foot: PathFoot = tracking ? geometry.nearest(x, y, s, 8) : whole();
    if (tracking && abs(foot.offsetMm) + abs(foot.beyondMm) > CORRIDOR_MM) foot = whole();
    s = foot.sMm;
    trace.sMm[i] = foot.sMm + foot.beyondMm;
    trace.offsetMm[i] = foot.offsetMm;
    const c = cos(foot.headingRad);
    const d = sin(foot.headingRad);
    trace.aheadTan[i] = lean.x * c + lean.y * d;
    trace.leftTan[i] = lean.y * c - lean.x * d;
    const burning = arcState[i] === TRANSFERRED && abs(foot.offsetMm) <= CORRIDOR_MM;
    if (burning && s > CORRIDOR_MM) begun = true;
    // Over an opening, or where the last of an outline falls before its end, the hand goes on without an arc.
    tracking = burning || (tracking && arcState[i] > 0 && abs(foot.offsetMm) <= CORRIDOR_MM);
  }
}

function phases(trace: PathTrace, drill: Drill, samples: Samples): void {
  const { arcState, penetration, throughFraction } = samples.columns;
  const pierces = drill.start !== 'edge' && drill.intended.grooveDepthMm === null;
  const gaps = trace.binGap.includes(1);
  let restMm = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (abs(trace.offsetMm[i]) > CORRIDOR_MM) continue;
    const s = trace.sMm[i];
    if (s < -CORRIDOR_MM || s > trace.lengthMm + CORRIDOR_MM) continue;
    if (arcState[i] !== TRANSFERRED) {
      if (gaps && trace.departIndex >= 0 && s <= trace.lengthMm && HELD.has(arcState[i])) trace.phase[i] = PHASE.gap;
      continue;
    }
    if (trace.transferIndex < 0) {
      trace.transferIndex = i;
      restMm = s;
    }
    if (trace.throughIndex < 0 && penetration[i] >= 0.999 && throughFraction[i] >= THROUGH_SHARE) {
      trace.throughIndex = i;
      if (pierces && trace.departIndex < 0) restMm = s;
    }
    if (trace.departIndex < 0) {
      // The arc may have touched the line farther on before: what begins behind that place is the start.
      if (s < restMm - DEPARTURE_MM) restMm = s;
      const leaves = pierces && trace.throughIndex < 0 ? BLIND_DEPARTURE_MM : DEPARTURE_MM;
      if (s > restMm + leaves && s > 0) trace.departIndex = i;
    }
    if (s > trace.lengthMm) trace.phase[i] = PHASE.past;
    else if (trace.departIndex < 0) trace.phase[i] = PHASE.dwell;
    else {
      trace.phase[i] = PHASE.cut;
      trace.lastCutIndex = i;
    }
  }
}

function speeds(trace: PathTrace, samples: Samples): void {
  const half = round(SPEED_HALF_SPAN_S * TICK_HZ);
  for (let first = 0; first < trace.ticks; first++) {
    if (trace.phase[first] === PHASE.away) continue;
    let last = first;
    while (last + 1 < trace.ticks && trace.phase[last + 1] !== PHASE.away && !goesOverSeam(trace.sMm, samples, last)) last++;
    for (let i = first; i <= last; i++) {
      if (trace.phase[i] === PHASE.past) continue;
      const from = i - half > first ? i - half : first;
      const to = i + half < last ? i + half : last;
      trace.speedMmPerS[i] = to > from ? ((trace.sMm[to] - trace.sMm[from]) * TICK_HZ) / (to - from) : 0;
    }
    first = last;
  }
}
