/** A worker with the core's manners of speaking that misbehaves as it is told: the input names how. */
import { setTimeout as wait } from 'node:timers/promises';
import { parentPort } from 'node:worker_threads';

parentPort?.on('message', async ({ input }: { input: string }) => {
  if (input === 'exit') process.exit(7);
  if (input === 'throw') setImmediate(() => Promise.reject(new Error('thrown outside of any task')));
  if (input === 'hang') for (;;);
  if (input === 'slow')
    for (let ticks = 1; ticks <= 8; ticks++) {
      await wait(500);
      parentPort?.postMessage({ kind: 'ticks', ticks });
    }
  if (input === 'slow' || input === 'good') parentPort?.postMessage({ kind: 'done', output: input });
});
