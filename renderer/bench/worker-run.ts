import {
  type Ejecta,
  type FallenPiece,
  type FieldGrid,
  SAMPLE_FIELDS,
  type Sample,
  type SimulationSetup,
} from '../../sim-core/index.ts';
import { EJECTA_FIELDS } from '../scene/ejecta-fields.ts';
import { applyPatch, createPlateField, type PlateField } from '../scene/plate-field.ts';
import type { HandNow, RunSource } from '../scene/run-source.ts';
import type { FrameMessage, ToWorker } from './worker-messages.ts';

/** A run source fed by frames of the simulation worker: the same for a run being cut and for one being replayed. */
export interface WorkerRun extends RunSource {
  take(frame: FrameMessage): void;
  readonly delayMs: number;
  readonly droppedMs: number;
}

export function createWorkerRun(
  kind: RunSource['kind'],
  setup: SimulationSetup,
  grid: FieldGrid,
  send: (message: ToWorker) => void,
): WorkerRun {
  const sample = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, Number.NaN])) as Sample;
  sample.arcState = 0;
  const ejecta = Object.fromEntries(EJECTA_FIELDS.map((field) => [field, 0])) as unknown as Ejecta;
  const hand: HandNow = { leanXDeg: 0, leanYDeg: 0, trigger: false };
  const field: PlateField = createPlateField(grid, setup.thicknessMm);
  const listeners = new Set<() => void>();
  let latest: Pick<FrameMessage, 'tick' | 'generation' | 'rate' | 'fallen' | 'delayMs' | 'droppedMs'> = {
    tick: 0,
    generation: 0,
    rate: kind === 'live' ? 1 : 0,
    fallen: [] as FallenPiece[],
    delayMs: 0,
    droppedMs: 0,
  };
  let open = true;

  return {
    kind,
    setup,
    grid,
    sample,
    ejecta,
    hand,
    field,
    get tick() {
      return latest.tick;
    },
    get fallen() {
      return latest.fallen;
    },
    get rate() {
      return latest.rate;
    },
    get generation() {
      return latest.generation;
    },
    get delayMs() {
      return latest.delayMs;
    },
    get droppedMs() {
      return latest.droppedMs;
    },
    take(frame) {
      latest = frame;
      SAMPLE_FIELDS.forEach((name, n) => {
        sample[name] = frame.sample[n] as number;
      });
      EJECTA_FIELDS.forEach((name, n) => {
        ejecta[name] = frame.ejecta[n] as number;
      });
      hand.leanXDeg = frame.hand[0] as number;
      hand.leanYDeg = frame.hand[1] as number;
      hand.trigger = frame.hand[2] === 1;
      applyPatch(field, frame);
      for (const listener of listeners) listener();
      // The next frame is asked for once this one can have been drawn, so a slow display is never flooded.
      requestAnimationFrame(() => {
        if (open) send({ kind: 'drawn' });
      });
    },
    onFrame(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close() {
      open = false;
      send({ kind: 'stop' });
    },
  };
}
