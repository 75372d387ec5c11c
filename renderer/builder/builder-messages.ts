import type { Drill, ParseProblem, PierceMethod, RunUse, SpeedWindow } from '../../sim-core/index.ts';

/** What crosses between the builder and the worker in which the core answers. `ask` numbers the questions. */
export type ToBuilderWorker =
  | { kind: 'answer'; ask: number; drill: Drill; known: SpeedWindow | null }
  /** The reference hand on this very text, as a run file. */
  | { kind: 'demonstrate'; ask: number; drill: Drill; text: string };

/** A pierce of the drill's metal by one method. */
export interface PierceFigures {
  /** s; null where it does not come through. */
  throughS: number | null;
  /** Melt heat on the torch's front, J. */
  thrownBackJ: number;
}

/** What the reference hand made of a drill. */
export interface ReferenceRun {
  seconds: number;
  score: number;
  passed: boolean;
  use: RunUse;
}

export type FromBuilderWorker =
  /** What the drawing shows, without asking the metal. */
  | { kind: 'drawing'; ask: number; problems: ParseProblem[] }
  | { kind: 'window'; ask: number; window: SpeedWindow }
  /** null where the arc does not go through the plate at all. */
  | { kind: 'pierces'; ask: number; pierces: Record<PierceMethod, PierceFigures> | null }
  /** Everything that keeps the drill from being cut. */
  | { kind: 'problems'; ask: number; problems: ParseProblem[] }
  | { kind: 'reference'; ask: number; reference: ReferenceRun | null; reason: string | null }
  | { kind: 'demonstration'; ask: number; runText: string }
  | { kind: 'failed'; ask: number; message: string };
