import type { Drill, RunFile, SpeedWindow, Verification } from '../../sim-core/index.ts';

/** What is asked of the worker that cuts runs again for an assessor. */
export type ToCheck =
  | { kind: 'verify'; run: RunFile; drill: Drill; known: SpeedWindow | null }
  | { kind: 'reference'; drill: Drill; drillText: string; known: SpeedWindow | null };

export type FromCheck =
  | { kind: 'verified'; verification: Verification; window: SpeedWindow }
  | { kind: 'reference'; run: RunFile; window: SpeedWindow }
  | { kind: 'failed'; message: string };
