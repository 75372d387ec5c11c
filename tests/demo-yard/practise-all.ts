import { availableParallelism } from 'node:os';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Apprentice } from './apprentices.ts';
import type { PractisedRun } from './practise.ts';

const MOST_WORKERS = 4;

/** Lets every apprentice practise, on as many cores as there are; the runs in the order in which they began. */
export async function practiseAll(people: readonly Apprentice[], onRun: (runs: number) => void): Promise<PractisedRun[]> {
  const workers = Math.min(MOST_WORKERS, availableParallelism());
  const runs: PractisedRun[] = [];
  const shares = Array.from({ length: workers }, (_, n) => people.filter((_one, index) => index % workers === n));
  await Promise.all(
    shares.map(
      (share) =>
        new Promise<void>((resolve, reject) => {
          const worker = new Worker(path.join(import.meta.dirname, 'practise-worker.ts'), { workerData: share });
          worker.on('message', (message: { run?: PractisedRun }) => {
            if (message.run) onRun(runs.push(message.run));
          });
          worker.once('error', reject);
          worker.once('exit', (code) => (code === 0 ? resolve() : reject(new Error(`A worker ended with ${code}.`))));
        }),
    ),
  );
  return runs.sort((a, b) => a.beganAtMs - b.beganAtMs || a.apprentice - b.apprentice);
}
