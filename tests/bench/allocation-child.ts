// Run by allocation.ts in a process of its own: the collector must be called by hand, and nothing else may allocate.
import { createSimulation, readHandTick, TICK_HZ } from '../../sim-core/index.ts';
import { rowsRun, STEEL_6 } from './recorded-runs.ts';

const collect = globalThis.gc;
if (!collect) throw new Error('Run with --expose-gc.');
const WARM_TICKS = 36000;
const run = rowsRun({ ...STEEL_6, lengthMm: 400, widthMm: 300 }, 600);
const simulation = createSimulation(run.setup);
const input = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
const step = (): void => simulation.step(readHandTick(run.log, simulation.tick, input));
const used = (): number => process.memoryUsage().heapUsed;

while (simulation.tick < WARM_TICKS) step();
// What asking itself allocates.
const asking = Array.from({ length: 31 }, () => -(used() - used())).sort((a, b) => a - b)[15] ?? 0;
let inTicks = 0;
let atSeconds = 0;
let ticks = 0;
let seconds = 0;
while (simulation.tick < run.log.length) {
  collect();
  const before = used();
  for (let n = 0; n < TICK_HZ - 1; n++) step();
  const between = used();
  step();
  inTicks += between - before - asking;
  atSeconds += used() - between - asking;
  ticks += TICK_HZ - 1;
  seconds++;
}
process.stdout.write(JSON.stringify({ ticks, bytesPerTick: inTicks / ticks, bytesPerFullSecond: atSeconds / seconds }));
