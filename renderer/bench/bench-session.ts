import { CORE_VERSION, type Drill, type HandPose, type SpeedWindow, setupFromDrill } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import type { HandEvent } from '../input/hand-event.ts';
import type { FinishedRun, FromWorker, HandChunk, ToWorker } from './worker-messages.ts';
import { createWorkerRun, type WorkerRun } from './worker-run.ts';

export interface BenchEvents {
  onWindow(window: SpeedWindow): void;
  onSource(source: WorkerRun): void;
  onChunk(chunk: HandChunk): void;
  onFinished(run: FinishedRun): void;
  onFailed(message: string): void;
}

/** The page's end of the simulation worker while a drill is on the bench. */
export interface BenchSession {
  cut(seed: number, pose: HandPose, nowMs: number): void;
  hand(event: HandEvent): void;
  hold(held: boolean): void;
  end(): void;
  close(): void;
}

function keyOf(drill: Drill) {
  const { plate, rig } = drill;
  return {
    coreVersion: CORE_VERSION,
    material: plate.material,
    thicknessMm: plate.thicknessMm,
    currentA: rig.currentA,
    rig: rig.class,
  };
}

/** A window that was found before, on this machine by this core; null where there is none, or where nothing is kept. */
async function knownWindow(drill: Drill): Promise<SpeedWindow | null> {
  const { window } = await callHost('getSpeedWindow', keyOf(drill)).catch(() => ({ window: null }));
  if (window === null) return null;
  const { reason, ...figures } = window;
  return reason === null ? figures : { ...figures, reason };
}

export function openBench(drill: Drill, events: BenchEvents): BenchSession {
  const worker = new Worker(new URL('./simulation-worker.ts', import.meta.url), { type: 'module' });
  const post = (message: ToWorker) => worker.postMessage(message);
  let source: WorkerRun | null = null;
  let known = false;
  let batch: HandEvent[] = [];
  let closed = false;

  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    switch (data.kind) {
      case 'window':
        if (!known) {
          // Worth keeping: it cost seconds. Where it cannot be kept it is found again next time.
          const { reason = null, ...figures } = data.window;
          callHost('putSpeedWindow', { key: keyOf(drill), window: { ...figures, reason } }).catch(() => undefined);
        }
        events.onWindow(data.window);
        return;
      case 'ready':
        source = createWorkerRun('live', setupFromDrill(drill, 0), data.grid, post);
        events.onSource(source);
        return;
      case 'frame':
        source?.take(data);
        return;
      case 'chunk':
        events.onChunk(data.chunk);
        return;
      case 'finished':
        events.onFinished(data.run);
        return;
      case 'failed':
        events.onFailed(data.message);
    }
  };
  worker.onerror = (event) => events.onFailed(event.message);

  void knownWindow(drill).then((window) => {
    if (closed) return;
    known = window !== null;
    post({ kind: 'window', drill, known: window });
  });

  return {
    cut: (seed, pose, nowMs) => post({ kind: 'cut', drill, seed, pose, nowMs, timeOriginMs: performance.timeOrigin }),
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
    hold: (held) => post({ kind: 'hold', held, nowMs: performance.now() }),
    end: () => post({ kind: 'end', nowMs: performance.now() }),
    close() {
      closed = true;
      source?.close();
      worker.terminate();
    },
  };
}
