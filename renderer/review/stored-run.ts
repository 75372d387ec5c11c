import {
  type Ejecta,
  type FieldGrid,
  readTrace,
  SAMPLE_FIELDS,
  type Sample,
  type StoredTrace,
  setupFromDrill,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { EJECTA_FIELDS } from '../scene/ejecta-fields.ts';
import { createPlateField } from '../scene/plate-field.ts';
import type { HandNow, RunSource } from '../scene/run-source.ts';
import type { ReviewedRun } from './fresh-run.ts';
import type { ReplayControl, ReplayEvents } from './replay-control.ts';

/** Coarse on purpose: an uncut plate needs no cells. */
const CELL_MM = 1;
const TILE_CELLS = 8;

function blankGrid(lengthMm: number, widthMm: number): FieldGrid {
  const nx = Math.ceil(lengthMm / CELL_MM);
  const ny = Math.ceil(widthMm / CELL_MM);
  return {
    cellMm: CELL_MM,
    nx,
    ny,
    layers: 1,
    layerMm: 1,
    x0Mm: 0,
    y0Mm: 0,
    tileCells: TILE_CELLS,
    tilesX: Math.ceil(nx / TILE_CELLS),
    tilesY: Math.ceil(ny / TILE_CELLS),
    heatCellsPerTile: 1,
  };
}

/**
 * A run of another core, shown from its stored figures: the torch goes where it went and the traces stand, but the metal is not
 * cut again, because this core would cut it differently.
 */
export function openStoredRun(run: ReviewedRun, trace: StoredTrace, events: ReplayEvents): ReplayControl {
  const columns = readTrace(trace);
  const rows = columns.xMm?.length ?? 0;
  const ticksPerRow = TICK_HZ / trace.hz;
  const setup = setupFromDrill(run.drill, run.seed, run.choices);
  const sample = Object.fromEntries(SAMPLE_FIELDS.map((field) => [field, Number.NaN])) as Sample;
  const ejecta = Object.fromEntries(EJECTA_FIELDS.map((field) => [field, 0])) as unknown as Ejecta;
  const hand: HandNow = { leanXDeg: 0, leanYDeg: 0, trigger: false };
  const grid = blankGrid(setup.lengthMm, setup.widthMm);
  const listeners = new Set<() => void>();
  let tick = 0;
  let rate = 0;
  let generation = 0;
  let from = { ms: 0, tick: 0 };
  const last = Math.floor(rows * ticksPerRow);

  function show(next: number): void {
    tick = Math.max(0, Math.min(last, Math.round(next)));
    const row = Math.max(0, Math.min(rows - 1, Math.floor(tick / ticksPerRow)));
    for (const field of SAMPLE_FIELDS) sample[field] = columns[field]?.[row] ?? Number.NaN;
    // Travel and work angle are about the heading; turned back to the plate's own axes.
    const heading = Number.isFinite(sample.headingRad) ? sample.headingRad : 0;
    hand.leanXDeg = sample.travelAngleDeg * Math.cos(heading) - sample.workAngleDeg * Math.sin(heading);
    hand.leanYDeg = sample.travelAngleDeg * Math.sin(heading) + sample.workAngleDeg * Math.cos(heading);
    for (const listener of listeners) listener();
  }

  const timer = setInterval(() => {
    if (rate === 0) return;
    const next = from.tick + ((performance.now() - from.ms) / 1000) * TICK_HZ * rate;
    if (next >= last || next <= 0) rate = 0;
    if (rate < 0) generation += 1;
    show(next);
  }, 16);

  const source: RunSource & { take(): void; delayMs: number; droppedMs: number } = {
    kind: 'recorded',
    setup,
    grid,
    sample,
    ejecta,
    hand,
    fallen: [],
    field: createPlateField(grid, setup.thicknessMm),
    get tick() {
      return tick;
    },
    get rate() {
      return rate;
    },
    get generation() {
      return generation;
    },
    delayMs: 0,
    droppedMs: 0,
    take: () => undefined,
    onFrame(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: () => clearInterval(timer),
  };
  queueMicrotask(() => {
    events.onSource(source);
    events.onBuilt(1, true, null);
    show(0);
  });

  return {
    seek(next) {
      const began = performance.now();
      generation += 1;
      show(next);
      from = { ms: performance.now(), tick };
      events.onSought(performance.now() - began, performance.now() - began);
    },
    play(next) {
      rate = next;
      from = { ms: performance.now(), tick };
      show(tick);
    },
    close: () => clearInterval(timer),
  };
}
