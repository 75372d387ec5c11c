import type { PathGeometry } from '../drill/path-geometry.ts';
import type { Drill } from '../drill/schema.ts';
import { setupFromDrill } from '../drill/setup-from-drill.ts';
import { leanDeg } from '../hand/hand-spot.ts';
import { abs, atan, clamp, cos, DEG_PER_RAD, floor, round, sin } from '../math/elementary.ts';
import { contains } from '../math/plane.ts';
import { topDepthMm } from '../quality/top-depth.ts';
import { leanTangents } from '../run/lean-tangents.ts';
import { ARC_STATES, type Samples, TICK_HZ } from '../run/types.ts';
import { goesOverSeam } from './outline-seam.ts';
import type { PathTrace } from './path-trace.ts';
import { PHASE } from './phase.ts';
import type { ScoreContext } from './score-context.ts';
import { tipWayMm } from './tip-way.ts';

/** Length of path that is judged as one piece, mm. */
export const BIN_MM = 0.5;

/** Pieces that the arc never crossed and that yet are open count as cut where a cut lies so near: the kerf's own breadth, mm. */
const KERF_REACH_MM = 3;

/** A piece is gone over anew when the arc comes back to it after so many ticks. */
const ANEW_TICKS = TICK_HZ;

/** The way gone is taken in steps of this many ticks, so that tremor adds nothing to it. */
const STRIDE_TICKS = TICK_HZ / 4;

/** This much of the way is held against nobody, mm: a resting hand trembles, and the arc may burn on beyond both ends. */
const FREE_WAY_MM = 8;

/** Half the breadth in which the deepest place of a groove is looked for where the drill names no width, and the step, mm. */
const GROOVE_REACH_MM = 1;
const GROOVE_STEP_MM = 0.5;

const TRANSFERRED = ARC_STATES.indexOf('transferred');

/** What became of the line, piece by piece. */
export interface PathBins {
  lengthMm: number;
  /**
   * Per piece: tick index at which the arc last crossed it (-1 = never), farthest from the line at which it ever did, mm, how often,
   * deepest cut 0 to 1, severed 0 or 1.
   */
  binIndex: Int32Array;
  binOffMm: Float64Array;
  binPasses: Uint8Array;
  binDepth: Float64Array;
  binSevered: Uint8Array;
  /** 1 where there was no metal when the run started. */
  binGap: Uint8Array;
  /** Depth of the open space at the end of the run, mm; only where the drill asks for a groove. */
  binGrooveMm: Float64Array;
  /** Share of the line's metal that the arc travelled, 0 to 1. */
  travelledShare: number;
  /** 0 to 1: how much of the way gone with the arc on served the line. Falls to 0 for scribbling. */
  purpose: number;
  /** Mean depth along the line over the depth asked for, 0 to 1. */
  depthShare: number;
}

export function createPathBins(drill: Drill, geometry: PathGeometry): PathBins {
  const bins = round(geometry.lengthMm / BIN_MM) < 1 ? 1 : round(geometry.lengthMm / BIN_MM);
  const binGap = new Uint8Array(bins);
  const cutouts = setupFromDrill(drill, 0).cutouts ?? [];
  if (cutouts.length > 0) {
    for (let bin = 0; bin < bins; bin++) {
      const place = geometry.pointAt((bin + 0.5) * (geometry.lengthMm / bins));
      if (cutouts.some((outline) => contains(outline, place.xMm, place.yMm))) binGap[bin] = 1;
    }
  }
  return {
    lengthMm: geometry.lengthMm,
    binIndex: new Int32Array(bins).fill(-1),
    binOffMm: new Float64Array(bins),
    binPasses: new Uint8Array(bins),
    binDepth: new Float64Array(bins),
    binSevered: new Uint8Array(bins),
    binGap,
    binGrooveMm: new Float64Array(bins),
    travelledShare: 0,
    purpose: 0,
    depthShare: 0,
  };
}

export function crossBins(trace: PathTrace, samples: Samples): void {
  const { penetration } = samples.columns;
  const bins = trace.binIndex.length;
  const perMm = bins / trace.lengthMm;
  const binOf = (s: number) => clamp(floor(s * perMm), 0, bins - 1);
  for (let i = 0; i < trace.ticks; i++) {
    if (trace.phase[i] === PHASE.away || trace.phase[i] === PHASE.gap) continue;
    const from = joins(trace, samples, i) ? clamp(trace.sMm[i - 1], 0, trace.lengthMm) : clamp(trace.sMm[i], 0, trace.lengthMm);
    const to = clamp(trace.sMm[i], 0, trace.lengthMm);
    const low = binOf(from < to ? from : to);
    const high = binOf(from < to ? to : from);
    for (let bin = low; bin <= high; bin++) {
      const before = trace.binIndex[bin];
      if ((before < 0 || i - before > ANEW_TICKS) && trace.binPasses[bin] < 255) trace.binPasses[bin]++;
      trace.binIndex[bin] = i;
      if (abs(trace.offsetMm[i]) > trace.binOffMm[bin]) trace.binOffMm[bin] = abs(trace.offsetMm[i]);
      if (penetration[i] > trace.binDepth[bin]) trace.binDepth[bin] = penetration[i];
    }
  }
}

/** True where the way to a tick from the one before it was along the line. */
function joins(trace: PathTrace, samples: Samples, index: number): boolean {
  return index > 0 && trace.phase[index - 1] !== PHASE.away && !goesOverSeam(trace.sMm, samples, index - 1);
}

/** What the metal says at the end of the run: severed or not, and how deep a groove. */
export function tellMetal(trace: PathTrace, drill: Drill, geometry: PathGeometry, samples: Samples, context: ScoreContext): void {
  severed(trace, samples, context);
  fillShortReaches(trace, drill, geometry, context);
  if (drill.intended.grooveDepthMm === null) return;
  const width = drill.intended.grooveWidthMm;
  const reach = width ? (width.low + width.high) / 4 : GROOVE_REACH_MM;
  const bins = trace.binIndex.length;
  for (let bin = 0; bin < bins; bin++) {
    if (trace.binIndex[bin] < 0) continue;
    const place = geometry.pointAt((bin + 0.5) * (trace.lengthMm / bins));
    const c = cos(place.headingRad);
    const s = sin(place.headingRad);
    let middle = 0;
    if (drill.technique === 'mark') {
      // A drawn line is as deep as it is wherever it lies: how far beside, line-following says. A broad groove lies about the line.
      const axis = axisAcross(trace, samples, bin);
      middle = c * (axis.yMm - place.yMm) - s * (axis.xMm - place.xMm);
    }
    let deepest = 0;
    for (let aside = middle - reach; aside <= middle + reach; aside += GROOVE_STEP_MM) {
      const depth = topDepthMm(context.metal, place.xMm - aside * s, place.yMm + aside * c);
      if (depth > deepest) deepest = depth;
    }
    trace.binGrooveMm[bin] = deepest;
  }
}

/** A piece of the line is severed where the line of the axis, as it was held when the arc crossed, is open at the end of the run. */
function severed(trace: PathTrace, samples: Samples, context: ScoreContext): void {
  for (let bin = 0; bin < trace.binIndex.length; bin++) {
    trace.binSevered[bin] = trace.binGap[bin];
    if (trace.binIndex[bin] < 0) continue;
    const { xMm, yMm, lean } = axisAcross(trace, samples, bin);
    if (context.isOpenAlongAxis(xMm, yMm, atan(lean.x) * DEG_PER_RAD, atan(lean.y) * DEG_PER_RAD)) trace.binSevered[bin] = 1;
  }
}

/** Axis of the torch as it last crossed a piece of the line. */
interface AxisAcross {
  /** Where it meets the top surface, mm. */
  xMm: number;
  yMm: number;
  lean: { x: number; y: number };
}

/** The arc crossed a piece where it was abreast of it between two ticks: who leaps over it in one tick was never there. */
function axisAcross(trace: PathTrace, samples: Samples, bin: number): AxisAcross {
  const { xMm, yMm, standOffMm } = samples.columns;
  const { sMm } = trace;
  const binMm = trace.lengthMm / trace.binIndex.length;
  const i = trace.binIndex[bin];
  const lean = leanTangents(samples, i);
  const before = joins(trace, samples, i) ? i - 1 : i;
  const wayMm = sMm[i] - sMm[before];
  const left = wayMm === 0 ? 0 : clamp((sMm[i] - (bin + 0.5) * binMm) / wayMm, 0, 1);
  return {
    xMm: xMm[i] - left * (xMm[i] - xMm[before]) - standOffMm[i] * lean.x,
    yMm: yMm[i] - left * (yMm[i] - yMm[before]) - standOffMm[i] * lean.y,
    lean,
  };
}

/**
 * Where the arc goes out over an opening, or over what has fallen, its kerf still reaches a little farther than its axis came:
 * short stretches that it did not cross are severed where the line itself is open and a severed piece lies beside them.
 */
function fillShortReaches(trace: PathTrace, drill: Drill, geometry: PathGeometry, context: ScoreContext): void {
  const bins = trace.binIndex.length;
  const binMm = trace.lengthMm / bins;
  const isOpen = (bin: number): boolean => {
    const place = geometry.pointAt((bin + 0.5) * binMm);
    const lean = leanDeg(place.headingRad, 0, drill.intended.bevelDeg);
    return context.isOpenAlongAxis(place.xMm, place.yMm, lean.x, lean.y);
  };
  for (let from = 0; from < bins; from++) {
    if (trace.binIndex[from] >= 0 || trace.binSevered[from] === 1) continue;
    let to = from;
    while (to + 1 < bins && trace.binIndex[to + 1] < 0 && trace.binSevered[to + 1] === 0) to++;
    const crossedBeside = (from > 0 && trace.binSevered[from - 1] === 1) || (to + 1 < bins && trace.binSevered[to + 1] === 1);
    if (crossedBeside && (to - from + 1) * binMm <= KERF_REACH_MM) {
      for (let bin = from; bin <= to; bin++) if (isOpen(bin)) trace.binSevered[bin] = 1;
    }
    from = to;
  }
}

export function tellShares(trace: PathTrace, drill: Drill, samples: Samples): void {
  const bins = trace.binIndex.length;
  const binMm = trace.lengthMm / bins;
  const { passes, grooveDepthMm } = drill.intended;
  let metal = 0;
  let travelled = 0;
  let useful = 0;
  let depth = 0;
  for (let bin = 0; bin < bins; bin++) {
    const gone = trace.binPasses[bin];
    useful += binMm * (gone < passes ? gone : passes);
    if (trace.binGap[bin] === 1) continue;
    metal++;
    if (gone > 0 || trace.binSevered[bin] === 1) travelled++;
    if (grooveDepthMm === null) depth += trace.binSevered[bin] === 1 ? 1 : trace.binDepth[bin];
    else depth += clamp(trace.binGrooveMm[bin] / grooveDepthMm.low, 0, 1);
  }
  trace.travelledShare = metal > 0 ? travelled / metal : 0;
  trace.depthShare = metal > 0 ? depth / metal : 0;
  const wayMm = wayWithArcMm(trace, drill, samples) - FREE_WAY_MM;
  // A detour or another pass over a missed spot is no scribble: full worth down to four fifths, none below a third.
  trace.purpose = useful === 0 ? 0 : clamp((useful / (wayMm > useful ? wayMm : useful) - 0.33) / 0.47, 0, 1);
}

/** Way of the tip with the arc on, mm. Where a groove is to have a width, what goes to and fro within it is weaving and not counted. */
function wayWithArcMm(trace: PathTrace, drill: Drill, samples: Samples): number {
  const { arcState } = samples.columns;
  const width = drill.intended.grooveWidthMm;
  const weaveMm = width ? width.high / 2 : 0;
  let wayMm = 0;
  let last = -1;
  for (let i = 0; i < trace.ticks; i++) {
    if (arcState[i] !== TRANSFERRED) {
      // The arc goes out where a pass ends: the way back without it is none.
      if (last >= 0 && i - last > STRIDE_TICKS) last = -1;
      continue;
    }
    if (last >= 0 && i - last < STRIDE_TICKS && i < trace.ticks - 1) continue;
    if (last >= 0) {
      const weaves = abs(trace.offsetMm[i]) <= weaveMm && abs(trace.offsetMm[last]) <= weaveMm;
      wayMm += weaves ? abs(trace.sMm[i] - trace.sMm[last]) : tipWayMm(samples, last, i);
    }
    last = i;
  }
  return wayMm;
}
