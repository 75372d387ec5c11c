import { createReplay, createSimulation, readHandTick, scoreRun, TICK_HZ } from '../../sim-core/index.ts';
import { contextOf, samplesOf } from '../scoring/hand-made-runs.ts';
import { CURVED_DRILL, WANDERING_MINUTE } from '../scoring/wandering-minute.ts';
import { type RecordedRun, rowsRun, STEEL_6, straightRun, timeRun } from './recorded-runs.ts';
import { type Spread, spreadOf } from './statistics.ts';

const WIDE = { ...STEEL_6, lengthMm: 400, widthMm: 300 };

/** How many seconds of a run go into one second of one core: by processor time and by the clock on the wall. */
export interface RealTimeFactor {
  name: string;
  seconds: number;
  processor: Spread;
  wall: Spread;
}

export function realTimeFactor(run: RecordedRun, rounds: number): RealTimeFactor {
  const timed = Array.from({ length: rounds }, () => timeRun(run));
  return {
    name: run.name,
    seconds: run.log.length / TICK_HZ,
    processor: spreadOf(timed.map(({ seconds, processorMs }) => (seconds * 1000) / processorMs)),
    wall: spreadOf(timed.map(({ seconds, wallMs }) => (seconds * 1000) / wallMs)),
  };
}

/** Making a simulation, ms by the clock on the wall: too short for the other. */
export function creationMs(): { name: string; ms: Spread }[] {
  return [STEEL_6, WIDE].map((setup) => ({
    name: `${setup.lengthMm} x ${setup.widthMm} mm`,
    ms: spreadOf(
      Array.from({ length: 15 }, () => {
        const began = performance.now();
        createSimulation(setup);
        return performance.now() - began;
      }),
    ),
  }));
}

/** The same hand on a small and a large plate, by turns: µs of processor time a tick. */
export function costByPlateSize(): { name: string; us: Spread }[] {
  const setups = [STEEL_6, WIDE];
  const us: number[][] = setups.map(() => []);
  for (let round = 0; round < 5; round++) {
    for (const [n, setup] of setups.entries()) {
      const { processorMs, seconds } = timeRun(straightRun(setup, 12));
      us[n]?.push((processorMs * 1000) / (seconds * TICK_HZ));
    }
  }
  return setups.map((setup, n) => ({ name: `${setup.lengthMm} x ${setup.widthMm} mm`, us: spreadOf(us[n] ?? []) }));
}

/** The same plate early in the cut and after more than a metre of it: µs by the clock on the wall a tick, second by second. */
export function costByLengthCut(): { name: string; us: Spread }[] {
  timeRun(rowsRun(WIDE, 10));
  const { perSecondMs } = timeRun(rowsRun(WIDE, 180));
  const part = (name: string, from: number, to: number) => ({
    name,
    us: spreadOf(perSecondMs.slice(from, to).map((ms) => (ms * 1000) / TICK_HZ)),
  });
  return [part('20 to 360 mm cut', 3, 40), part('1060 to 1210 mm cut', 142, 159)];
}

/** Digest and snapshot of a run under way at each half second, ms by the clock on the wall. */
export function digestCosts(): { digestMs: Spread; snapshotMs: Spread; savedBytes: number } {
  const run = rowsRun(WIDE, 60);
  const simulation = createSimulation(run.setup);
  const input = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  const digest: number[] = [];
  const snapshot: number[] = [];
  for (let tick = 0; tick < run.log.length; tick++) {
    simulation.step(readHandTick(run.log, tick, input));
    // Half a second after the last digest: half a second's changes are to be taken.
    if (tick % TICK_HZ !== TICK_HZ / 2) continue;
    const began = performance.now();
    simulation.digest();
    const between = performance.now();
    simulation.snapshot();
    digest.push(between - began);
    snapshot.push(performance.now() - between);
  }
  return { digestMs: spreadOf(digest), snapshotMs: spreadOf(snapshot), savedBytes: simulation.save().length };
}

/** A minute of hand work along a curve scored, ms by the clock on the wall. */
export function scoringMs(): Spread {
  const samples = samplesOf(CURVED_DRILL, WANDERING_MINUTE);
  const context = contextOf(CURVED_DRILL, { ...WANDERING_MINUTE, isOpen: (xMm) => xMm > 20 });
  const times = Array.from({ length: 30 }, () => {
    const began = performance.now();
    scoreRun(CURVED_DRILL, samples, context);
    return performance.now() - began;
  });
  // The engine compiles what is hot first.
  return spreadOf(times.slice(10));
}

/** Random seeks in a recording of five minutes, ms by the clock on the wall. */
export function seekMs(seeks: number): { minutes: number; buildS: number; ms: Spread } {
  const run = rowsRun(WIDE, 300);
  const replay = createReplay(run);
  const began = performance.now();
  while (replay.advance(TICK_HZ * 10));
  const buildS = (performance.now() - began) / 1000;
  let random = 12345;
  const times = Array.from({ length: seeks }, () => {
    random = (Math.imul(random, 1103515245) + 12345) >>> 0;
    const tick = random % (replay.tickCount + 1);
    const from = performance.now();
    replay.seek(tick);
    return performance.now() - from;
  });
  return { minutes: run.log.length / TICK_HZ / 60, buildS, ms: spreadOf(times) };
}
