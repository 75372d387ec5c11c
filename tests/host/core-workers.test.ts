// Cutting runs again goes on beside the thread that answers calls, can be stopped, and outlives a worker that breaks down.

import path from 'node:path';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { expect, onTestFinished, test } from 'vitest';
import type { Reply } from '../../electron/contract.ts';
import { createCoreWorkers } from '../../electron/host/core-workers.ts';
import { HostError } from '../../electron/host/host-error.ts';
import { CORE_VERSION } from '../../sim-core/index.ts';
import { checkOf } from './job-ends.ts';
import { longRunText } from './long-run.ts';
import { openTestHost, type TestPage } from './open-test-host.ts';
import { SAMPLE_DRILL, sampleBegin, sampleFinish, sampleInputs } from './sample-hand.ts';
import { openYardWithRoles } from './yard-with-roles.ts';

function unruly(quietLimitMs = 60_000) {
  const said: string[] = [];
  const file = path.join(import.meta.dirname, 'unruly-worker.ts');
  const workers = createCoreWorkers({ file, quietLimitMs, log: (line) => said.push(line) });
  onTestFinished(() => workers.close());
  const run = (input: string, options = {}) => workers.run('readRun', input, options) as unknown as Promise<string>;
  return { ...workers, run, said };
}

test('a worker that ends, throws or hangs fails its own task with a sentence; the next one is done', async () => {
  const { run, said } = unruly(6000);
  for (const [manner, reason] of [
    ['exit', /ended with 7/],
    ['throw', /thrown outside/],
    ['hang', /said nothing for 6000 ms/],
  ] as const) {
    const error = await run(manner).catch((caught: HostError) => caught);
    expect(error, manner).toBeInstanceOf(HostError);
    expect(error).toMatchObject({
      code: 'internal',
      message: expect.stringMatching(/^The core broke down .* nothing was changed/),
    });
    expect(said.at(-1)).toMatch(reason);
    expect(await run('good'), `after ${manner}`).toBe('good');
  }
  expect(said).toHaveLength(3);
});

test('what tells how far it is does not count as hanging, however long it takes', async () => {
  const { run } = unruly(3000);
  const ticks: number[] = [];
  expect(await run('slow', { onTicks: (done: number) => ticks.push(done) })).toBe('slow');
  expect(ticks).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
});

test('what must come to an end goes before what can wait; what is stopped makes room', async () => {
  const { run } = unruly();
  const stops = [new AbortController(), new AbortController()];
  const held = stops.map(({ signal }) => run('hang', { signal }).catch((error: HostError) => error.message));
  const order: string[] = [];
  const later = run('good').then(() => order.push('later'));
  const first = run('good', { mustEnd: true }).then(() => order.push('first'));
  const never = new AbortController();
  const gone = run('good', { signal: never.signal }).catch((error: HostError) => error.code);
  never.abort();
  expect(await gone).toBe('conflict');
  stops[0]?.abort();
  await Promise.all([first, later]);
  expect(order).toEqual(['first', 'later']);
  stops[1]?.abort();
  expect(await Promise.all(held)).toEqual(Array(2).fill('It was stopped; nothing was changed.'));
});

/** Asks for a job until `isSo`; each answer is one that the host gave meanwhile. */
async function untilJob(page: TestPage, jobId: string, isSo: (job: Awaited<ReturnType<typeof askJob>>) => boolean) {
  for (;;) {
    const job = await askJob(page, jobId);
    if (isSo(job)) return job;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
const askJob = (page: TestPage, jobId: string) => page.ask('getJob', { jobId });

test('other calls are answered while a long run is cut again, and the check is stopped at once', async () => {
  const { assessor, instructor, nobody } = await openYardWithRoles();
  const { run } = await instructor.ask('importRun', { text: longRunText() });
  const order: string[] = [];
  const check = checkOf(assessor, run.id).then(({ trust }) => order.push(`check: ${trust}`));
  // Whatever the host does on its own thread for the check is over after some turns.
  for (let turn = 0; turn < 20; turn++) await nextTurn();
  await nobody.ask('listPeople', {}).then(() => order.push('people'));
  await instructor.ask('listQueue', {}).then(() => order.push('queue'));
  const job = await instructor.ask('startCheck', { runId: run.id });
  // The answer tells of a moment within the simulation.
  const half = await untilJob(instructor, job.id, ({ done, state }) => done > 0 || state !== 'running');
  expect(half).toMatchObject({ kind: 'check-run', state: 'running', total: run.tickCount, check: null });
  expect(half.done).toBeLessThan(run.tickCount);
  await expect(assessor.refusal('getJob', { jobId: job.id })).resolves.toMatch(/^not-found/);
  await instructor.ask('stopJob', { jobId: job.id });
  const stopped = await untilJob(instructor, job.id, ({ state }) => state !== 'running');
  expect(stopped).toMatchObject({ state: 'stopped', check: null, problem: 'It was stopped; nothing was changed.' });
  order.push('stopped');
  await check;
  expect(order).toEqual(['people', 'queue', 'stopped', 'check: same']);

  // Known by now: the same text is not cut once more, and the job is done when it is asked for.
  const again = await instructor.ask('startCheck', { runId: run.id });
  const done = await untilJob(instructor, again.id, ({ state }) => state !== 'running');
  expect(done).toMatchObject({ state: 'done', done: run.tickCount, check: { trust: 'same' }, problem: null });
});

test('a check under way does not keep the host from closing', async () => {
  const checkUnderWay = async (minutes: number) => {
    const host = await openTestHost();
    const { run } = await host.ask('importRun', { text: longRunText(minutes) });
    await host.ask('makeFirstInstructor', { passphrase: 'slipway at low water' });
    const { id } = await host.ask('startCheck', { runId: run.id });
    await untilJob(host, id, ({ done }) => done > 0);
    return { host, id };
  };
  // The shorter check, begun first, would be over if closing waited for the longer one.
  const shorter = await checkUnderWay(15);
  const longer = await checkUnderWay(20);
  await longer.host.close();
  expect(await askJob(shorter.host, shorter.id)).toMatchObject({ state: 'running' });
});

test('other calls are answered while an assessment is cut again to be marked', async () => {
  const { apprentice, otherApprentice, instructor, nobody, ids } = await openYardWithRoles();
  const assign = { title: 'Test', drillIds: [SAMPLE_DRILL], personIds: [ids.apprentice], cueLevel: 'none' as const };
  const { id: assignmentId } = await instructor.ask('assign', assign);
  const { runId } = await apprentice.ask('beginRun', { ...sampleBegin(), assignmentId, coreVersion: CORE_VERSION });
  const tickCount = 4800;
  for (let sequence = 0; sequence < 8; sequence++) {
    const firstTick = sequence * tickCount;
    await apprentice.ask('appendToRun', { runId, sequence, firstTick, tickCount, inputs: sampleInputs(firstTick, tickCount) });
  }
  const order: string[] = [];
  expect(await apprentice.ask('getMarking', { runId })).toEqual({ marking: null });
  const finished = apprentice.ask('finishRun', sampleFinish(runId, 8 * tickCount)).then(() => order.push('finished'));
  for (let turn = 0; turn < 20; turn++) await nextTurn();
  await nobody.ask('listPeople', {}).then(() => order.push('people'));
  // Whoever cut it is told how far the marking is, and nobody else.
  const told: Reply<'getMarking'>['marking'][] = [];
  const isUnderWay = async () => told[told.push((await apprentice.ask('getMarking', { runId })).marking) - 1]?.doneTicks;
  await expect.poll(isUnderWay, { interval: 5 }).toBeGreaterThan(0);
  expect(told.at(-1)).toMatchObject({ totalTicks: 8 * tickCount });
  expect(told.at(-1)?.doneTicks).toBeLessThan(8 * tickCount);
  expect(await otherApprentice.refusal('getMarking', { runId })).toMatch(/^forbidden/);
  await finished;
  expect(order).toEqual(['people', 'finished']);
  expect(await apprentice.ask('getMarking', { runId })).toEqual({ marking: null });
});
