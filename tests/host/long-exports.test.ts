// Work on many runs tells how far it is; stopped, it leaves neither a file nor an entry, and what was there before stays.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import type { FileJobBegun, PaperJob } from '../../electron/contract.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { fillYard } from './fill-yard.ts';
import { endOfJob, fetchJobFile, startedJob } from './job-ends.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const RUNS = 3000;
const HOME = 'https://tidewater-row.example';

/** A yard of many runs; its instructor has signed in. */
async function fullYard(folder: string, askWhereToSave?: () => Promise<string | null>): Promise<TestPage> {
  const { host, instructor, apprentice, ids } = await openYardWithRoles({ folder });
  await cutSampleRun(apprentice);
  await instructor.ask('listRuns', {});
  await host.close();
  fillYard(folder, { people: 20, runs: RUNS });
  const filled = await openTestHost({ folder, askWhereToSave });
  await filled.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  return filled;
}

async function whileRunning(page: TestPage, begun: FileJobBegun): Promise<PaperJob> {
  const { id } = startedJob(begun);
  for (;;) {
    const job = await page.ask('getJob', { jobId: id });
    if (job.done > 0 || job.state !== 'running') return job;
    await new Promise((resolve) => setImmediate(resolve));
  }
}

async function exportsNoted(page: TestPage): Promise<number> {
  return (await page.ask('listLedger', { kinds: ['export'] })).total;
}

test('tables and statements of many runs are followed and stopped, and then made', async () => {
  const folder = temporaryFolder();
  const page = await fullYard(folder);
  const files = () => readdirSync(path.join(folder, '.passing'));
  for (const begin of [
    () => page.ask('exportRunsCsv', { table: 'measures' }),
    () => page.ask('exportStatements', { homePage: HOME }),
  ]) {
    const half = await whileRunning(page, await begin());
    expect(half).toMatchObject({ state: 'running', total: RUNS + 1, file: null });
    expect(half.done).toBeLessThan(RUNS + 1);
    await page.ask('stopJob', { jobId: half.id });
    expect(await endOfJob(page, half)).toMatchObject({
      state: 'stopped',
      file: null,
      problem: expect.stringMatching(/^It was stopped/),
    });
    expect(files()).toEqual([]);
    expect(await exportsNoted(page)).toBe(0);
  }
  const whole = await endOfJob(page, startedJob(await page.ask('exportRunsCsv', { table: 'runs' })));
  expect(whole).toMatchObject({ state: 'done', done: RUNS + 1, total: RUNS + 1 });
  const text = (await fetchJobFile(page, whole.id)).toString('utf8').slice(1);
  const { data, errors } = Papa.parse<{ run_id: string }>(text, { header: true, skipEmptyLines: true });
  expect(errors).toEqual([]);
  expect(new Set(data.map((row) => row.run_id)).size).toBe(RUNS + 1);
  // A later table takes its place.
  const later = await endOfJob(page, startedJob(await page.ask('exportRunsCsv', { table: 'measures' })));
  expect(files()).toHaveLength(1);
  expect(await page.refusal('readJobFile', { jobId: whole.id, offset: 0 })).toMatch(/^conflict: /);
  expect((await fetchJobFile(page, later.id)).length).toBeGreaterThan(text.length);
  expect(await exportsNoted(page)).toBe(2);
});

test('where the shell asks, a table is put there whole or not at all', async () => {
  const to = path.join(temporaryFolder(), 'runs.csv');
  let answer: string | null = null;
  const page = await fullYard(temporaryFolder(), async () => answer);
  expect(await page.ask('exportRunsCsv', { table: 'runs' })).toEqual({ outcome: 'cancelled' });
  answer = to;
  const half = await whileRunning(page, await page.ask('exportRunsCsv', { table: 'runs' }));
  await page.ask('stopJob', { jobId: half.id });
  expect(await endOfJob(page, half)).toMatchObject({ state: 'stopped', file: null });
  expect(existsSync(to)).toBe(false);
  expect(readdirSync(path.dirname(to))).toEqual([]);
  const whole = await endOfJob(page, startedJob(await page.ask('exportRunsCsv', { table: 'runs' })));
  expect(whole.file).toEqual({ fileName: 'runs.csv', fetch: false });
  expect(readFileSync(to, 'utf8').trimEnd().split('\r\n')).toHaveLength(RUNS + 2);
  expect(await exportsNoted(page)).toBe(1);
});
