import { checkFeasibility, verifyRunFile } from '../../sim-core/index.ts';
import { readDrillText } from './drill-text.ts';
import { markAgain, type RunToMark } from './mark-again.ts';
import { readPack } from './papers/drill-pack.ts';
import { readRunText } from './read-run-text.ts';

/** Told now and then how many ticks of a run are done: a sign of life as much as a figure to show. */
export type OnTicks = (ticks: number) => void;

/** What the core is asked for that takes it longer than other calls should wait: done in a worker, see `createCoreWorkers`. */
export const CORE_TASKS = {
  /** Text of a run file. */
  verify: (text: string, onTicks: OnTicks) => verifyRunFile(text, onTicks),
  /** @throws HostError 'conflict' where the run cannot be cut again */
  markAgain: (run: RunToMark, onTicks: OnTicks) => markAgain(run, onTicks),
  /** @throws HostError 'bad-file', 'newer-version' */
  readRun: (text: string) => readRunText(text),
  /** Text of a drill pack. @throws HostError 'bad-file', 'newer-version', 'too-large' */
  readPack: (text: string) => readPack(text),
  /** Text of a drill: why it cannot be cut. */
  feasibility: (text: string) => checkFeasibility(readDrillText(text).drill),
};

export type CoreTask = keyof typeof CORE_TASKS;
export type CoreInput<T extends CoreTask> = Parameters<(typeof CORE_TASKS)[T]>[0];
export type CoreOutput<T extends CoreTask> = ReturnType<(typeof CORE_TASKS)[T]>;

export interface CoreRequest {
  task: CoreTask;
  input: unknown;
}

/** What a worker says: how far it is, what came of it, or why nothing did. A failure with a `code` is a `HostError`. */
export type CoreReply =
  | { kind: 'ticks'; ticks: number }
  | { kind: 'done'; output: unknown }
  | { kind: 'failed'; code: string | null; message: string; stack: string };
