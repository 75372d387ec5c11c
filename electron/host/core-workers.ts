import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { ErrorCode } from '../contract.ts';
import type { CoreInput, CoreOutput, CoreReply, CoreTask } from './core-tasks.ts';
import { HostError } from './host-error.ts';

/** A long check leaves one free; two of them leave none, and only what `mustEnd` goes before others that wait. */
const MOST_WORKERS = 2;
/** A worker that says nothing for so long hangs: the slowest answer of the core without a sign takes some seconds. */
const QUIET_LIMIT_MS = 120_000;

export interface CoreTaskOptions {
  /** Aborting it ends the work at once. */
  signal?: AbortSignal;
  onTicks?: (ticks: number) => void;
  /** It goes before others that wait, and the host does not close before its end. */
  mustEnd?: boolean;
}

export interface CoreWorkers {
  /**
   * Does a task away from the thread that answers calls.
   * @throws what the task throws as HostError; HostError 'conflict' where it was stopped, 'internal' where its worker broke down
   */
  run<T extends CoreTask>(task: T, input: CoreInput<T>, options?: CoreTaskOptions): Promise<CoreOutput<T>>;
  /** Stops what need not come to an end, before the host waits for the rest. */
  stopChecks(): void;
  close(): Promise<void>;
}

export interface CoreWorkersOptions {
  log?: (line: string) => void;
  quietLimitMs?: number;
  /** File of the worker; tests have worse ones. */
  file?: string;
}

interface Job {
  task: CoreTask;
  input: unknown;
  options: CoreTaskOptions;
  resolve(output: unknown): void;
  reject(error: Error): void;
}

interface Seat {
  worker: Worker | null;
  job: Job | null;
  quiet: NodeJS.Timeout | null;
}

/** Beside this file in the sources, and beside the one bundle of a built shell. */
function workerFile(): string {
  return path.join(import.meta.dirname, import.meta.filename.endsWith('.ts') ? 'core-worker.ts' : 'core-worker.mjs');
}

/** Workers for the core: started when first needed and kept, for they keep the speeds of metals that they have worked out. */
export function createCoreWorkers(settings: CoreWorkersOptions = {}): CoreWorkers {
  const { log = () => undefined, quietLimitMs = QUIET_LIMIT_MS, file = workerFile() } = settings;
  const seats: Seat[] = Array.from({ length: MOST_WORKERS }, () => ({ worker: null, job: null, quiet: null }));
  const waiting: Job[] = [];
  let isClosed = false;

  function seatsNext(): void {
    // The first seat is the warmest.
    for (const seat of seats) if (seat.job === null && waiting.length > 0) begin(seat, waiting.shift() as Job);
  }

  function begin(seat: Seat, job: Job): void {
    seat.job = job;
    try {
      seat.worker ??= startWorker(seat);
      seat.worker.ref();
      watch(seat);
      seat.worker.postMessage({ task: job.task, input: job.input });
    } catch (error) {
      breakDown(seat, error);
    }
  }

  function startWorker(seat: Seat): Worker {
    const worker = new Worker(file);
    const ifMine = (act: () => void) => {
      if (seat.worker === worker) act();
    };
    worker.on('message', (reply: CoreReply) => ifMine(() => hear(seat, reply)));
    worker.on('error', (error) => ifMine(() => breakDown(seat, error)));
    worker.on('exit', (code) => ifMine(() => breakDown(seat, new Error(`The core's worker ended with ${code}.`))));
    return worker;
  }

  function watch(seat: Seat): void {
    if (seat.quiet) clearTimeout(seat.quiet);
    seat.quiet = setTimeout(
      () => breakDown(seat, new Error(`The core's worker said nothing for ${quietLimitMs} ms.`)),
      quietLimitMs,
    );
  }

  function hear(seat: Seat, reply: CoreReply): void {
    const { job } = seat;
    if (job === null) return;
    if (reply.kind === 'ticks') {
      watch(seat);
      job.options.onTicks?.(reply.ticks);
      return;
    }
    leave(seat);
    if (reply.kind === 'done') job.resolve(reply.output);
    else job.reject(errorOf(reply));
    seatsNext();
  }

  /** The seat is free again, its worker kept; an idle worker keeps no program alive. */
  function leave(seat: Seat): void {
    if (seat.quiet) clearTimeout(seat.quiet);
    seat.quiet = null;
    seat.job = null;
    seat.worker?.unref();
  }

  /** Away with the worker, whatever it is at: the next task gets a new one. */
  function dismiss(seat: Seat): Promise<unknown> {
    const { worker } = seat;
    seat.worker = null;
    leave(seat);
    return worker ? worker.terminate() : Promise.resolve();
  }

  function breakDown(seat: Seat, error: unknown): void {
    const { job } = seat;
    void dismiss(seat);
    log(`core worker: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    job?.reject(
      new HostError('internal', 'The core broke down while it was cutting this again; nothing was changed. Try it once more.', {
        cause: error,
      }),
    );
    seatsNext();
  }

  function stop(job: Job, reason: string): void {
    const seat = seats.find((one) => one.job === job);
    const place = waiting.indexOf(job);
    if (place >= 0) waiting.splice(place, 1);
    if (seat) void dismiss(seat);
    if (seat || place >= 0) job.reject(new HostError('conflict', reason));
    seatsNext();
  }

  function stopForClosing(which: (job: Job) => boolean): void {
    const all = [...waiting, ...seats.flatMap((seat) => seat.job ?? [])];
    for (const job of all.filter(which)) stop(job, 'Kerfhand is closing; nothing was changed.');
  }

  return {
    run<T extends CoreTask>(task: T, input: CoreInput<T>, options: CoreTaskOptions = {}): Promise<CoreOutput<T>> {
      const { signal, mustEnd } = options;
      if (isClosed || signal?.aborted) return Promise.reject(new HostError('conflict', 'It was stopped before it began.'));
      const { promise, resolve, reject } = Promise.withResolvers<unknown>();
      const job: Job = { task, input, options, resolve, reject };
      const onAbort = () => stop(job, 'It was stopped; nothing was changed.');
      signal?.addEventListener('abort', onAbort, { once: true });
      const before = mustEnd ? waiting.findIndex((other) => !other.options.mustEnd) : -1;
      waiting.splice(before < 0 ? waiting.length : before, 0, job);
      seatsNext();
      return promise.finally(() => signal?.removeEventListener('abort', onAbort)) as Promise<CoreOutput<T>>;
    },
    stopChecks: () => stopForClosing((job) => !job.options.mustEnd),
    async close() {
      isClosed = true;
      stopForClosing(() => true);
      await Promise.all(seats.map(dismiss));
    },
  };
}

function errorOf({ code, message, stack }: Extract<CoreReply, { kind: 'failed' }>): Error {
  if (code !== null) return new HostError(code as ErrorCode, message);
  return Object.assign(new Error(message), { stack });
}
