import type { Drill, RunFile, SpeedWindow } from '../../sim-core/index.ts';

/** What is asked of the worker that cuts with the reference hand. */
export interface ToReference {
  drill: Drill;
  drillText: string;
  known: SpeedWindow | null;
}

export type FromReference = { kind: 'cut'; run: RunFile; window: SpeedWindow } | { kind: 'failed'; message: string };
