import { windowOfDrill } from './drill-window.ts';
import { figureShown as shown } from './figure-shown.ts';
import { lineProblems } from './line-problems.ts';
import type { ParseProblem } from './parse-problem.ts';
import { type PathGeometry, pathGeometry } from './path-geometry.ts';
import { pierceProblems } from './pierce-problems.ts';
import { plateProblems } from './plate-problems.ts';
import { rigProblems } from './rig-problems.ts';
import { rubricProblems } from './rubric-problems.ts';
import type { Drill } from './schema.ts';
import type { SpeedWindow } from './speed-window.ts';

export interface FeasibilityOptions {
  /** The core's answer for the drill's metal; the core itself where absent. It may take some seconds. */
  window?: SpeedWindow;
  /** True where only the drawing and the window are asked for. */
  skipPierce?: boolean;
}

/**
 * Why a drill that reads well cannot be cut as it stands: JSON path and sentence each, empty where it can. First what the
 * drawing shows (rig, plate, line, rubric), and only if that is sound what the core says of the metal.
 */
export function checkFeasibility(drill: Drill, options: FeasibilityOptions = {}): ParseProblem[] {
  const problems = [...rigProblems(drill), ...plateProblems(drill), ...rubricProblems(drill)];
  let path: PathGeometry;
  try {
    path = pathGeometry(drill.path);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [...problems, { path: '$.path.segments', sentence: error.message }];
  }
  problems.push(...lineProblems(drill, path));
  if (problems.length > 0) return problems;
  return [...windowProblems(drill, options.window ?? windowOfDrill(drill)), ...(options.skipPierce ? [] : pierceProblems(drill))];
}

/** A drill with a speed of its own asks nothing of the core: a groove need not go through. */
function windowProblems(drill: Drill, window: SpeedWindow): ParseProblem[] {
  if (drill.intended.speedMmPerS) return [];
  if (window.windowLowMmPerS !== null && window.windowHighMmPerS !== null && window.edgeDwellS !== null) return [];
  const { material, thicknessMm } = drill.plate;
  const metal = `${shown(thicknessMm)} mm ${material.replace('-', ' ')}`;
  const sentence = `Rig ${drill.rig.class} at ${shown(drill.rig.currentA)} A cannot cut ${metal} as asked. ${window.reason ?? ''}`;
  return [{ path: '$.plate.thicknessMm', sentence: sentence.trim() }];
}
