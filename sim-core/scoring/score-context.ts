import type { Diagnosis } from '../drill/diagnosis.ts';
import type { PathGeometry } from '../drill/path-geometry.ts';
import type { RigChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';
import { type MetalReader, metalOf } from '../quality/metal-reader.ts';
import type { Samples, Simulation } from '../run/types.ts';
import type { PathTrace } from './path-trace.ts';

/** Speeds that count as right, and the pause at an edge; nulls where there are none. */
export interface ScoreWindow {
  windowLowMmPerS: number | null;
  windowHighMmPerS: number | null;
  losingSpeedMmPerS: number | null;
  edgeDwellS: number | null;
}

/** What the marks are measured against, beside the drill: the core's own answers for this metal, current and run. */
export interface ScoreContext {
  window: ScoreWindow;
  /** The metal at the end of the run. */
  metal: MetalReader;
  /** State of the metal at the end of the run: is the line of the axis open from top to underside? As Simulation.isOpenAlongAxis. */
  isOpenAlongAxis(xMm: number, yMm: number, leanXDeg: number, leanYDeg: number): boolean;
  /** What the trainee chose in the rig check, and said of the fault; null where nothing was. */
  choices: RigChoices | null;
  diagnosis: Diagnosis | null;
}

/** What a trainee settled beside the hand's work; null where nothing was. */
export type Answered = Pick<ScoreContext, 'choices' | 'diagnosis'>;

/** What a run is marked against, of the simulation as it stands after the last tick. It is looked at when asked, not before. */
export function scoreContextOf(simulation: Simulation, window: ScoreWindow, answers: Answered): ScoreContext {
  return {
    window,
    metal: metalOf(simulation),
    isOpenAlongAxis: (xMm, yMm, leanXDeg, leanYDeg) => simulation.isOpenAlongAxis(xMm, yMm, leanXDeg, leanYDeg),
    choices: answers.choices,
    diagnosis: answers.diagnosis,
  };
}

/** What every measure gets to see. */
export interface MeasureInput {
  drill: Drill;
  geometry: PathGeometry;
  samples: Samples;
  trace: PathTrace;
  context: ScoreContext;
}
