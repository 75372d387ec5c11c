import { createFramePacker } from '../../renderer/bench/frame-packer.ts';
import { createInputClock } from '../../renderer/bench/input-clock.ts';
import {
  createSimulation,
  decodeRunFile,
  type HandTick,
  type ReadRunFile,
  readHandTick,
  type Simulation,
  setupFromDrill,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { nextInteger, nextUnit, type RandomState } from '../../sim-core/math/random.ts';

/** Digests of a run: at each full second, and at the end. */
export type Digests = string[];

function readRun(text: string): ReadRunFile {
  const result = decodeRunFile(text);
  if (!result.ok) throw new Error(result.problems.map(({ sentence }) => sentence).join(' '));
  return result.run;
}

function created(run: ReadRunFile): Simulation {
  return createSimulation(setupFromDrill(run.drill, run.seed, run.choices));
}

function stepper(run: ReadRunFile) {
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  return (simulation: Simulation, digests: Digests): void => {
    simulation.step(readHandTick(run.log, simulation.tick, tick));
    if (simulation.tick % TICK_HZ === 0) digests.push(simulation.digest());
  };
}

/** Tick after tick, without a pause. */
export function straightThrough(text: string): Digests {
  const run = readRun(text);
  const [simulation, step, digests] = [created(run), stepper(run), [] as Digests];
  while (simulation.tick < run.log.length) step(simulation, digests);
  return [...digests, simulation.digest()];
}

/** Saved at random ticks and gone on with in a simulation that is made anew from the bytes. */
export function savedAndRestored(text: string, random: RandomState): Digests {
  const run = readRun(text);
  const [step, digests] = [stepper(run), [] as Digests];
  let simulation = created(run);
  const savedAt = new Set(Array.from({ length: 4 }, () => nextInteger(random) % run.log.length));
  while (simulation.tick < run.log.length) {
    step(simulation, digests);
    if (!savedAt.has(simulation.tick)) continue;
    const bytes = simulation.save();
    simulation = created(run);
    simulation.restore(bytes);
  }
  return [...digests, simulation.digest()];
}

/** As the bench steps it: by the page's clock, at a random display rate with stalls, its fields read for every frame. */
export function shownOnDisplay(text: string, random: RandomState): Digests {
  const run = readRun(text);
  const [simulation, step, digests] = [created(run), stepper(run), [] as Digests];
  const packer = createFramePacker(simulation);
  const clock = createInputClock({ tickHz: TICK_HZ, startMs: 0 });
  const frameMs = 1000 / (20 + nextUnit(random) * 220);
  const about = { generation: 0, rate: 1, delayMs: 0, droppedMs: 0 };
  let nowMs = 0;
  while (simulation.tick < run.log.length) {
    nowMs += nextUnit(random) < 0.02 ? 50 + nextUnit(random) * 2000 : frameMs;
    for (let due = clock.due(nowMs); due > 0 && simulation.tick < run.log.length; due -= 1) step(simulation, digests);
    packer.frame(about, Float64Array.of(0, 0, 0));
  }
  return [...digests, simulation.digest()];
}
