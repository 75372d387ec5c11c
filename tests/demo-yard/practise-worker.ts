// Cuts the runs of some apprentices on a core of its own; every one is told as soon as it is done.
import { parentPort, workerData } from 'node:worker_threads';
import type { Apprentice } from './apprentices.ts';
import { practise } from './practise.ts';

for (const who of workerData as Apprentice[]) {
  practise(who, (run) => parentPort?.postMessage({ run }));
  parentPort?.postMessage({ done: who.number });
}
