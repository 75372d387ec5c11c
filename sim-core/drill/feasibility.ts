import { abs, cos, sin } from '../math/elementary.ts';
import { RIGS } from '../physics/rig.ts';
import type { PointMm } from '../run/types.ts';
import type { ParseProblem } from './parse-problem.ts';
import { type PathGeometry, pathGeometry } from './path-geometry.ts';
import type { Drill } from './schema.ts';
import { type SpeedWindow, speedWindow } from './speed-window.ts';

/** Farthest that a start at the edge, or an end that runs off, may lie from an edge of the metal, mm. */
const AT_EDGE_MM = 0.5;

/** Step in which the line is walked to see whether it lies on the plate, mm. */
const WALK_MM = 0.5;

/** Shortest line that can be marked at all, mm. */
const SHORTEST_LINE_MM = 20;

/** Tightest turn that a hand can follow at cutting speed, mm. */
const TIGHTEST_RADIUS_MM = 2;

export interface FeasibilityOptions {
  /** The core's answer for the drill's metal; the core itself where absent. It may take some seconds. */
  window?: SpeedWindow;
}

/**
 * Why a drill that reads well cannot be cut as it stands: JSON path and sentence each, empty where it can. First what the
 * drawing shows (rig, line, edges), and only if that is sound what the core says of the metal.
 */
export function checkFeasibility(drill: Drill, options: FeasibilityOptions = {}): ParseProblem[] {
  const problems = [...rigProblems(drill), ...plateProblems(drill)];
  let path: PathGeometry;
  try {
    path = pathGeometry(drill.path);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [...problems, { path: '$.path.segments', sentence: error.message }];
  }
  problems.push(...lineProblems(drill, path));
  if (problems.length > 0) return problems;
  return windowProblems(drill, options.window ?? windowOf(drill));
}

function windowOf(drill: Drill): SpeedWindow {
  const { material, thicknessMm } = drill.plate;
  return speedWindow({ material, thicknessMm, currentA: drill.rig.currentA, rig: drill.rig.class });
}

function rigProblems(drill: Drill): ParseProblem[] {
  const { currentA } = drill.rig;
  const rig = RIGS[drill.rig.class];
  if (currentA >= rig.dialMinA && currentA <= rig.dialMaxA) return [];
  const sentence = `The dial of rig ${rig.id} goes from ${rig.dialMinA} to ${rig.dialMaxA} A; ${currentA} A is not on it.`;
  return [{ path: '$.rig.currentA', sentence }];
}

function plateProblems(drill: Drill): ParseProblem[] {
  const { lengthMm, widthMm, supports, cutouts } = drill.plate;
  const onPlate = (point: PointMm): boolean => point.xMm >= 0 && point.xMm <= lengthMm && point.yMm >= 0 && point.yMm <= widthMm;
  const problems: ParseProblem[] = [];
  for (const [index, support] of supports.entries()) {
    if (!onPlate(support))
      problems.push({ path: `$.plate.supports[${index}]`, sentence: 'This support lies outside the plate.' });
    else if (cutouts.some((outline) => contains(outline, support))) {
      problems.push({ path: `$.plate.supports[${index}]`, sentence: 'This support lies under a cut-out and carries nothing.' });
    }
  }
  for (const [index, outline] of cutouts.entries()) {
    if (!outline.every(onPlate)) {
      problems.push({ path: `$.plate.cutouts[${index}]`, sentence: 'This cut-out reaches outside the plate.' });
    }
  }
  return problems;
}

function lineProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  const problems: ParseProblem[] = [];
  if (path.lengthMm < SHORTEST_LINE_MM) {
    problems.push({
      path: '$.path',
      sentence: `The line is ${shown(path.lengthMm)} mm long; at least ${SHORTEST_LINE_MM} mm can be marked.`,
    });
  }
  for (const [index, segment] of drill.path.segments.entries()) {
    if (segment.kind !== 'arc') continue;
    const from = index === 0 ? drill.path.start : path.pointAt(path.jointsMm[index - 1]);
    const radius = distanceMm(from, segment.centre);
    if (radius < TIGHTEST_RADIUS_MM) {
      const sentence = `The turn has a radius of ${shown(radius)} mm; no hand follows less than ${TIGHTEST_RADIUS_MM} mm.`;
      problems.push({ path: `$.path.segments[${index}]`, sentence });
    }
  }
  const start = path.pointAt(0);
  if (edgeDistanceMm(drill, start) > AT_EDGE_MM) {
    problems.push({ path: '$.path.start', sentence: 'The drill starts at an edge, and this place is at no edge of the metal.' });
  } else if (!isMetal(drill, ahead(start, 2 * AT_EDGE_MM))) {
    problems.push({ path: '$.path.segments[0]', sentence: 'The line leads away from the metal, not into it.' });
  }
  const last = drill.path.segments.length - 1;
  const end = path.pointAt(path.lengthMm);
  if (drill.finish === 'run-off') {
    if (edgeDistanceMm(drill, end) > AT_EDGE_MM || isMetal(drill, ahead(end, 2 * AT_EDGE_MM))) {
      problems.push({
        path: `$.path.segments[${last}]`,
        sentence: 'The drill runs off the metal, and its line does not end at an edge that it crosses.',
      });
    }
  } else if (edgeDistanceMm(drill, end) < drill.plate.thicknessMm) {
    problems.push({
      path: `$.path.segments[${last}]`,
      sentence: 'The drill stops on the metal, and its line ends too near an edge.',
    });
  }
  const lost = firstOffMetalMm(drill, path);
  if (lost !== null) {
    const place = path.pointAt(lost);
    const sentence = `The line leaves the metal ${shown(lost)} mm from its start, at x ${shown(place.xMm)}, y ${shown(place.yMm)} mm.`;
    problems.push({ path: '$.path', sentence });
  }
  return problems;
}

/** Place along the line, its ends left out, that is not over metal; null where all of it is. */
function firstOffMetalMm(drill: Drill, path: PathGeometry): number | null {
  for (let s = 2 * AT_EDGE_MM; s < path.lengthMm - 2 * AT_EDGE_MM; s += WALK_MM) {
    if (!isMetal(drill, path.pointAt(s))) return s;
  }
  return null;
}

function windowProblems(drill: Drill, window: SpeedWindow): ParseProblem[] {
  if (window.windowLowMmPerS !== null && window.windowHighMmPerS !== null && window.edgeDwellS !== null) return [];
  const { material, thicknessMm } = drill.plate;
  const metal = `${shown(thicknessMm)} mm ${material.replace('-', ' ')}`;
  const sentence = `Rig ${drill.rig.class} at ${shown(drill.rig.currentA)} A cannot cut ${metal} as asked. ${window.reason ?? ''}`;
  return [{ path: '$.plate.thicknessMm', sentence: sentence.trim() }];
}

function isMetal(drill: Drill, point: PointMm): boolean {
  const { lengthMm, widthMm, cutouts } = drill.plate;
  if (point.xMm <= 0 || point.xMm >= lengthMm || point.yMm <= 0 || point.yMm >= widthMm) return false;
  return !cutouts.some((outline) => contains(outline, point));
}

/** Distance from a point to the nearest edge: of the plate, or of a cut-out. */
function edgeDistanceMm(drill: Drill, point: PointMm): number {
  const { lengthMm, widthMm, cutouts } = drill.plate;
  const plate = [
    { xMm: 0, yMm: 0 },
    { xMm: lengthMm, yMm: 0 },
    { xMm: lengthMm, yMm: widthMm },
    { xMm: 0, yMm: widthMm },
  ];
  let nearest = Number.POSITIVE_INFINITY;
  for (const outline of [plate, ...cutouts]) {
    for (const [index, from] of outline.entries()) {
      const distance = segmentDistanceMm(point, from, outline[(index + 1) % outline.length]);
      if (distance < nearest) nearest = distance;
    }
  }
  return nearest;
}

function segmentDistanceMm(point: PointMm, from: PointMm, to: PointMm): number {
  const dx = to.xMm - from.xMm;
  const dy = to.yMm - from.yMm;
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : ((point.xMm - from.xMm) * dx + (point.yMm - from.yMm) * dy) / square;
  const held = share < 0 ? 0 : share > 1 ? 1 : share;
  return distanceMm(point, { xMm: from.xMm + held * dx, yMm: from.yMm + held * dy });
}

function distanceMm(a: PointMm, b: PointMm): number {
  const dx = a.xMm - b.xMm;
  const dy = a.yMm - b.yMm;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Even-odd rule, as the metal field uses it. */
function contains(outline: readonly PointMm[], point: PointMm): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i];
    const b = outline[j];
    if (a.yMm > point.yMm === b.yMm > point.yMm) continue;
    if (point.xMm < ((b.xMm - a.xMm) * (point.yMm - a.yMm)) / (b.yMm - a.yMm) + a.xMm) inside = !inside;
  }
  return inside;
}

function ahead(place: PointMm & { headingRad: number }, byMm: number): PointMm {
  return { xMm: place.xMm + byMm * cos(place.headingRad), yMm: place.yMm + byMm * sin(place.headingRad) };
}

/** A figure for a sentence: at most two places, no trailing zeros. */
function shown(value: number): string {
  const text = value.toFixed(2).replace(/\.?0+$/, '');
  return abs(value) < 0.005 ? '0' : text;
}
