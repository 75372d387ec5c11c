// Prints the processor time, ms, that the core takes to score a minute of hand work: in a process of its own, as the core runs,
// and by processor time, so that a busy machine does not count.
import process from 'node:process';
import { scoreRun } from '../../sim-core/index.ts';
import { contextOf, samplesOf } from './hand-made-runs.ts';
import { CURVED_DRILL, WANDERING_MINUTE } from './wandering-minute.ts';

const samples = samplesOf(CURVED_DRILL, WANDERING_MINUTE);
const context = contextOf(CURVED_DRILL, { ...WANDERING_MINUTE, isOpen: (xMm) => xMm > 20 });
let least = Number.POSITIVE_INFINITY;
for (let i = 0; i < 15; i++) {
  const began = process.cpuUsage();
  scoreRun(CURVED_DRILL, samples, context);
  const { user, system } = process.cpuUsage(began);
  least = Math.min(least, (user + system) / 1000);
}
process.stdout.write(`${least}\n`);
