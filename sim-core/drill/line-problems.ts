import { abs } from '../math/elementary.ts';
import { distanceMm } from '../math/plane.ts';
import { ahead, edgeDistanceMm, isMetal } from './drill-metal.ts';
import { figureShown as shown } from './figure-shown.ts';
import type { ParseProblem } from './parse-problem.ts';
import type { PathGeometry } from './path-geometry.ts';
import type { Drill } from './schema.ts';

/** Farthest that a start at the edge, or an end that runs off, may lie from an edge of the metal, mm. */
const AT_EDGE_MM = 0.5;

/** Step in which the line is walked to see whether it lies on the plate, mm. */
const WALK_MM = 0.5;

/** Shortest line that can be marked at all, mm. */
const SHORTEST_LINE_MM = 20;

/** Tightest turn that a hand can follow at cutting speed, mm. */
const TIGHTEST_RADIUS_MM = 2;

/** Farthest from its own start at which a closed line may end, mm. */
const CLOSES_WITHIN_MM = 0.1;

/** Nearest to an edge that a pierce may lie: nearer, it breaks out to the side, mm. */
const PIERCE_FROM_EDGE_MM = 5;

/** What is wrong with where the line of a drill lies on its plate. */
export function lineProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  return [...shapeProblems(drill, path), ...startProblems(drill, path), ...endProblems(drill, path), ...wayProblems(drill, path)];
}

/** A groove or a mark lies in the surface: it may begin and end anywhere on the metal. */
function liesInSurface(drill: Drill): boolean {
  return drill.rig.mode === 'gouge' || drill.rig.mode === 'mark';
}

function shapeProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  const problems: ParseProblem[] = [];
  const markedMm = path.lengthMm - drill.leadInMm;
  if (markedMm < SHORTEST_LINE_MM) {
    const sentence = `The line is ${shown(markedMm)} mm long; at least ${SHORTEST_LINE_MM} mm can be marked.`;
    problems.push({ path: drill.leadInMm > 0 ? '$.leadInMm' : '$.path', sentence });
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
  const { guide } = drill;
  if (guide.kind === 'circle') {
    const turns = [0, ...path.jointsMm].map((s) => path.turnAt(s));
    if (!turns.some((turn) => turn && abs(turn.radiusMm - guide.radiusMm) < 0.01)) {
      const sentence = `The circle guide is set to a radius of ${shown(guide.radiusMm)} mm, and no turn of the line has it.`;
      problems.push({ path: '$.guide.radiusMm', sentence });
    }
  }
  return problems;
}

function startProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  const start = path.pointAt(0);
  const edgeMm = edgeDistanceMm(drill, start);
  if (liesInSurface(drill)) {
    if (edgeMm <= AT_EDGE_MM || isMetal(drill, start)) return [];
    return [{ path: '$.path.start', sentence: 'The line starts beside the metal.' }];
  }
  if (drill.start === 'edge') {
    if (edgeMm > AT_EDGE_MM) {
      return [{ path: '$.path.start', sentence: 'The drill starts at an edge, and this place is at no edge of the metal.' }];
    }
    if (isMetal(drill, ahead(start, 2 * AT_EDGE_MM))) return [];
    return [{ path: '$.path.segments[0]', sentence: 'The line leads away from the metal, not into it.' }];
  }
  if (isMetal(drill, start) && edgeMm >= PIERCE_FROM_EDGE_MM) return [];
  const sentence = `The drill starts with a pierce, and this place does not lie in the metal, ${PIERCE_FROM_EDGE_MM} mm or more from every edge.`;
  return [{ path: '$.path.start', sentence }];
}

function endProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  const at = `$.path.segments[${drill.path.segments.length - 1}]`;
  const end = path.pointAt(path.lengthMm);
  const edgeMm = edgeDistanceMm(drill, end);
  if (drill.finish === 'close') {
    const gapMm = distanceMm(end, path.pointAt(drill.leadInMm));
    if (gapMm <= CLOSES_WITHIN_MM) return [];
    const from = drill.leadInMm > 0 ? 'the end of its lead-in' : 'its start';
    return [{ path: at, sentence: `The drill closes its line, and the line ends ${shown(gapMm)} mm from ${from}.` }];
  }
  if (drill.finish === 'run-off') {
    if (edgeMm <= AT_EDGE_MM && !isMetal(drill, ahead(end, 2 * AT_EDGE_MM))) return [];
    return [{ path: at, sentence: 'The drill runs off the metal, and its line does not end at an edge that it crosses.' }];
  }
  if (edgeMm >= drill.plate.thicknessMm || (liesInSurface(drill) && isMetal(drill, end))) return [];
  return [{ path: at, sentence: 'The drill stops on the metal, and its line ends too near an edge.' }];
}

function wayProblems(drill: Drill, path: PathGeometry): ParseProblem[] {
  for (let s = 2 * AT_EDGE_MM; s < path.lengthMm - 2 * AT_EDGE_MM; s += WALK_MM) {
    const place = path.pointAt(s);
    if (isMetal(drill, place)) continue;
    const sentence = `The line leaves the metal ${shown(s)} mm from its start, at x ${shown(place.xMm)}, y ${shown(place.yMm)} mm.`;
    return [{ path: '$.path', sentence }];
  }
  return [];
}
