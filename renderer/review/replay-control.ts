import { setupFromDrill } from '../../sim-core/index.ts';
import type { FromWorker, ToWorker } from '../bench/worker-messages.ts';
import { createWorkerRun, type WorkerRun } from '../bench/worker-run.ts';
import type { ReviewedRun } from './fresh-run.ts';
import type { MeasuredRun } from './measure-run.ts';

export interface ReplayEvents {
  onSource(source: WorkerRun): void;
  onBuilt(share: number, done: boolean, verdict: 'same' | 'different' | null): void;
  onMeasured(measured: MeasuredRun): void;
  /** A seek came back: what the core took for it, and what it took from asking to having the frame, ms. */
  onSought(coreMs: number, wholeMs: number): void;
  onFailed(message: string): void;
}

/** The page's end of the worker that replays a run. */
export interface ReplayControl {
  /** Seeks that come faster than they can be answered are folded into the last one. */
  seek(tick: number): void;
  /** Run seconds a second of the wall, backward where negative; 0 stops. */
  play(rate: number): void;
  close(): void;
}

export function openReplay(run: ReviewedRun, events: ReplayEvents): ReplayControl {
  const worker = new Worker(new URL('../bench/simulation-worker.ts', import.meta.url), { type: 'module' });
  const post = (message: ToWorker, transfer: Transferable[] = []) => worker.postMessage(message, transfer);
  let source: WorkerRun | null = null;
  let asked = 0;
  let askedMs = 0;
  let answered = 0;
  let pending: number | null = null;

  function send(tick: number): void {
    asked += 1;
    askedMs = performance.now();
    post({ kind: 'seek', tick, asked });
  }

  worker.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    switch (data.kind) {
      case 'ready':
        source = createWorkerRun('recorded', setupFromDrill(run.drill, run.seed, run.choices), data.grid, post);
        events.onSource(source);
        return;
      case 'frame':
        source?.take(data);
        return;
      case 'built':
        events.onBuilt(data.tickCount === 0 ? 1 : data.ticks / data.tickCount, data.ticks === data.tickCount, data.verdict);
        return;
      case 'measured':
        events.onMeasured(data.measured);
        return;
      case 'sought':
        answered = data.asked;
        events.onSought(data.tookMs, performance.now() - askedMs);
        if (pending !== null) {
          const tick = pending;
          pending = null;
          send(tick);
        }
        return;
      case 'failed':
        events.onFailed(data.message);
    }
  };
  worker.onerror = (event) => events.onFailed(event.message);
  post({ kind: 'replay', drill: run.drill, seed: run.seed, choices: run.choices, inputs: run.inputs, recorded: run.recorded });

  return {
    seek(tick) {
      if (asked === answered) send(tick);
      else pending = tick;
    },
    play: (rate) => post({ kind: 'play', rate }),
    close() {
      source?.close();
      worker.terminate();
    },
  };
}
