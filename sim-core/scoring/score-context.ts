import type { PathGeometry } from '../drill/path-geometry.ts';
import type { Drill } from '../drill/schema.ts';
import type { Samples } from '../run/types.ts';
import type { PathTrace } from './path-trace.ts';

/** What the marks are measured against, beside the drill: the core's own answers for this metal, current and run. */
export interface ScoreContext {
  /** The speed window of this metal, thickness, current and rig; nulls where there is none. */
  window: {
    windowLowMmPerS: number | null;
    windowHighMmPerS: number | null;
    losingSpeedMmPerS: number | null;
    edgeDwellS: number | null;
  };
  /** State of the metal at the end of the run: is the line of the axis open from top to underside? As Simulation.isOpenAlongAxis. */
  isOpenAlongAxis(xMm: number, yMm: number, leanXDeg: number, leanYDeg: number): boolean;
}

/** What every measure gets to see. */
export interface MeasureInput {
  drill: Drill;
  geometry: PathGeometry;
  samples: Samples;
  trace: PathTrace;
  context: ScoreContext;
}
