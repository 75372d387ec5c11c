/** The worker's side of `createCoreWorkers`: one task at a time, told by message. */
import { parentPort } from 'node:worker_threads';
import { CORE_TASKS, type CoreReply, type CoreRequest, type OnTicks } from './core-tasks.ts';
import { HostError } from './host-error.ts';

const say = (reply: CoreReply) => parentPort?.postMessage(reply);
const onTicks: OnTicks = (ticks) => say({ kind: 'ticks', ticks });

parentPort?.on('message', ({ task, input }: CoreRequest) => {
  try {
    const run = CORE_TASKS[task] as (input: unknown, onTicks: OnTicks) => unknown;
    say({ kind: 'done', output: run(input, onTicks) });
  } catch (error) {
    const { message, stack } = error instanceof Error ? error : new Error(String(error));
    say({ kind: 'failed', code: error instanceof HostError ? error.code : null, message, stack: stack ?? message });
  }
});
