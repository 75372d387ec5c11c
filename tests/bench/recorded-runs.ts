import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import {
  appendHandTick,
  appendSample,
  createHandLog,
  createSamples,
  createSimulation,
  type HandLog,
  type HandTick,
  parseDrill,
  quantiseHand,
  readHandTick,
  referenceHand,
  runHand,
  type SimulationSetup,
  setupFromDrill,
  TICK_HZ,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { threadMs } from './statistics.ts';

/** A run to be simulated again and timed. */
export interface RecordedRun {
  name: string;
  setup: SimulationSetup;
  log: HandLog;
}

export const STEEL_6: SimulationSetup = {
  ...{ material: 'mild-steel', thicknessMm: 6, lengthMm: 120, widthMm: 60 },
  ...{ rig: '60', currentA: 45, seed: 1, supports: [{ xMm: 5, yMm: 5 }] },
};
/** A speed in the window of 6 mm mild steel at 45 A. */
const SPEED_MM_PER_S = 9;
const DWELL_S = 1;

/** Edge start in the middle of the short side, then straight on with a little tremor of the lean, until `seconds` are over. */
export function straightRun(setup: SimulationSetup, seconds: number): RecordedRun {
  const log = createHandLog();
  for (let tick = 0; tick < seconds * TICK_HZ; tick++) {
    const along = Math.max(0, tick / TICK_HZ - DWELL_S) * SPEED_MM_PER_S;
    const leanXDeg = 2 * Math.sin(tick / 97);
    const yMm = setup.widthMm / 2 + along / 60;
    appendHandTick(log, quantiseHand({ xMm: along, yMm, heightMm: 1.5, leanXDeg, leanYDeg: 1, trigger: true }));
  }
  return { name: `${setup.thicknessMm} mm ${setup.material}, straight`, setup, log };
}

const ROW_MM = 15;

/** Cuts to and fro across the plate in rows, from the first edge to `seconds`. Every strip rests on something, so none falls. */
export function rowsRun(plate: SimulationSetup, seconds: number): RecordedRun {
  const strips = Math.floor(plate.widthMm / ROW_MM);
  const setup = { ...plate, supports: Array.from({ length: strips }, (_, n) => ({ xMm: 5, yMm: ROW_MM * (n + 0.8) })) };
  const log = createHandLog();
  const rowMm = setup.lengthMm + 20;
  for (let tick = 0; tick < seconds * TICK_HZ; tick++) {
    const along = Math.max(0, tick / TICK_HZ - DWELL_S) * SPEED_MM_PER_S;
    const row = Math.floor(along / rowMm);
    const inRow = along - row * rowMm;
    const xMm = row % 2 === 0 ? inRow : setup.lengthMm - inRow;
    appendHandTick(log, quantiseHand({ xMm, yMm: ROW_MM * (row + 1.3), heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: true }));
  }
  return { name: 'rows', setup, log };
}

/** The reference hand's run of every shipped drill that can be cut. */
export function referenceRuns(): RecordedRun[] {
  const folder = path.join(import.meta.dirname, '..', '..', 'scenarios');
  return readdirSync(folder)
    .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
    .flatMap((name) => {
      const drill = parseDrill(readFileSync(path.join(folder, name), 'utf8'));
      if (!drill.ok) return [];
      const window = windowOfDrill(drill.value);
      if (window.windowLowMmPerS === null) return [];
      const { log } = runHand(drill.value, referenceHand(drill.value, window), 1);
      return [{ name: drill.value.id, setup: setupFromDrill(drill.value, 1), log }];
    });
}

/** What a run costs when it is recorded: every tick stepped, sampled and logged, the digest told every second. */
export interface TimedRun {
  seconds: number;
  processorMs: number;
  wallMs: number;
  /** Each simulated second by the clock on the wall, ms. */
  perSecondMs: number[];
}

export function timeRun(run: RecordedRun): TimedRun {
  const simulation = createSimulation(run.setup);
  const samples = createSamples(run.log.length + 1);
  const log = createHandLog(run.log.length + 1);
  const input: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const perSecondMs: number[] = [];
  const wall = performance.now();
  const began = threadMs();
  let last = wall;
  for (let tick = 0; tick < run.log.length; tick++) {
    readHandTick(run.log, tick, input);
    simulation.step(input);
    appendSample(samples, simulation.sample);
    appendHandTick(log, input);
    if (simulation.tick % TICK_HZ !== 0) continue;
    simulation.digest();
    const now = performance.now();
    perSecondMs.push(now - last);
    last = now;
  }
  return { seconds: run.log.length / TICK_HZ, processorMs: threadMs() - began, wallMs: performance.now() - wall, perSecondMs };
}
