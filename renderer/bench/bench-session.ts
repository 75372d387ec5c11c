import {
  conditionOfDrill,
  type Diagnosis,
  type Drill,
  type HandPose,
  type RigChoices,
  type SpeedWindow,
  setupFromDrill,
} from '../../sim-core/index.ts';
import { keepWindow, knownWindow } from '../drills/known-window.ts';
import type { HandEvent } from '../input/hand-event.ts';
import type { FinishedRun, FromWorker, HandChunk, ToWorker } from './worker-messages.ts';
import { createWorkerRun, type WorkerRun } from './worker-run.ts';
import { watchWorker } from './worker-watch.ts';

export interface BenchEvents {
  onWindow(window: SpeedWindow): void;
  onSource(source: WorkerRun): void;
  onChunk(chunk: HandChunk): void;
  onFinished(run: FinishedRun): void;
  onFailed(message: string): void;
  /** The simulation stands still in the middle of a run, though nobody held it; and it goes on. */
  onStill(): void;
  onMoving(): void;
}

/** The page's end of the simulation worker while a drill is on the bench. */
export interface BenchSession {
  cut(seed: number, choices: RigChoices | null, pose: HandPose, nowMs: number): void;
  hand(event: HandEvent): void;
  hold(held: boolean): void;
  /** Ends the cutting; `mark` asks for the marks. */
  end(): void;
  mark(diagnosis: Diagnosis | null): void;
  close(): void;
}

export function openBench(drill: Drill, events: BenchEvents): BenchSession {
  const worker = new Worker(new URL('./simulation-worker.ts', import.meta.url), { type: 'module' });
  const post = (message: ToWorker) => worker.postMessage(message);
  const watch = watchWorker(events.onStill, events.onMoving);
  const condition = conditionOfDrill(drill);
  let source: WorkerRun | null = null;
  let chosen: RigChoices | null = null;
  let known = false;
  let batch: HandEvent[] = [];
  let closed = false;
  /** A run was asked for that has not begun: what still comes belongs to the one before. */
  let beginning = false;

  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    watch.heard();
    switch (data.kind) {
      case 'window':
        if (!known && condition) keepWindow(condition, data.window);
        events.onWindow(data.window);
        return;
      case 'ready':
        beginning = false;
        source = createWorkerRun('live', setupFromDrill(drill, 0, chosen), data.grid, post);
        events.onSource(source);
        return;
      case 'frame':
        source?.take(data);
        return;
      case 'chunk':
        if (!beginning) events.onChunk(data.chunk);
        return;
      case 'finished':
        events.onFinished(data.run);
        return;
      case 'failed':
        fail(data.message);
    }
  };
  worker.onerror = (event) => fail(event.message);

  function fail(message: string): void {
    watch.close();
    events.onFailed(message);
  }

  void knownWindow(condition).then((window) => {
    if (closed) return;
    known = window !== null;
    post({ kind: 'window', drill, known: window });
  });

  return {
    cut(seed, choices, pose, nowMs) {
      chosen = choices;
      beginning = true;
      post({ kind: 'cut', drill, seed, choices, pose, nowMs, timeOriginMs: performance.timeOrigin });
    },
    hand(event) {
      // Coalesced events of one moment travel together.
      if (batch.length === 0) {
        queueMicrotask(() => {
          post({ kind: 'hand', events: batch });
          batch = [];
        });
      }
      batch.push(event);
    },
    hold(held) {
      watch.expect(!held);
      post({ kind: 'hold', held, nowMs: performance.now() });
    },
    end() {
      watch.expect(false);
      post({ kind: 'end' });
    },
    mark: (diagnosis) => post({ kind: 'mark', diagnosis }),
    close() {
      closed = true;
      watch.close();
      source?.close();
      worker.terminate();
    },
  };
}
