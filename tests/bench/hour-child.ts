// Run by hour-of-practice.ts in a process of its own: the collector must be called by hand.
import { referenceRuns, timeRun } from './recorded-runs.ts';

const collect = globalThis.gc;
if (!collect) throw new Error('Run with --expose-gc.');
const HOUR_S = 3600;
const runs = referenceRuns();
const heldMb = (): number => {
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return (heapUsed + arrayBuffers) / 1024 / 1024;
};
let seconds = 0;
let count = 0;
// Once through all drills loads what is kept from then on.
for (const run of runs) timeRun(run);
const afterMb = [heldMb()];
while (seconds < HOUR_S) {
  for (const run of runs) {
    seconds += timeRun(run).seconds;
    count++;
  }
  afterMb.push(heldMb());
}
process.stdout.write(JSON.stringify({ runs: count, seconds, afterMb }));
