import { readFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { DEFAULT_SETTINGS, type Reply } from '../../electron/contract.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { fillYard } from './fill-yard.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { CHUNK_TICKS, SAMPLE_DRILL, SCENARIOS, sampleBegin, sampleChunk, sampleFinish } from './sample-hand.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const TABLES = ['practice', 'practice_marks', 'practice_weeks', 'run_marks'];

test('totals made anew from the runs are those that were added up run by run', async () => {
  const folder = temporaryFolder();
  const { host, apprentice, otherApprentice } = await openYardWithRoles({ folder });
  const other = { drillId: 'cradle-gusset-straight-10' };
  for (const [page, begin, score] of [
    [apprentice, {}, 40.25],
    [apprentice, other, 71],
    [otherApprentice, {}, 12.5],
    [apprentice, {}, 88.125],
    [apprentice, {}, 63],
  ] as const) {
    await cutSampleRun(page, begin, { score, passed: score > 60 });
  }
  await host.close();
  const read = (change = '') => {
    const records = new DatabaseSync(path.join(folder, 'records.db'));
    records.exec(change);
    const rows = TABLES.map((table) => records.prepare(`select * from ${table} order by 1, 2, 3`).all());
    const weakest = records.prepare('select id, weakest_measure from runs order by id').all();
    records.close();
    return { rows, weakest };
  };
  const before = read();
  expect(before.rows.map((rows) => rows.length > 0)).toEqual([true, true, true, true]);
  const forget = "delete from settings where name = 'practice-totals'; update practice set recent = 1, finished = 99;";
  read(forget);
  await (await openTestHost({ folder })).close();
  expect(read()).toEqual(before);
  // As in records from before marks stood beside the runs.
  read(`${forget} delete from run_marks; update runs set weakest_measure = null;`);
  await (await openTestHost({ folder })).close();
  expect(read()).toEqual(before);
});

test('plate is billed by the metal of the version that was cut, though the drill is of another one since', async () => {
  const folder = temporaryFolder();
  const { host, instructor, apprentice, ids } = await openYardWithRoles({ folder });
  const shipped = JSON.parse(readFileSync(path.join(SCENARIOS, `${SAMPLE_DRILL}.json`), 'utf8'));
  const { platePerKg } = DEFAULT_SETTINGS.prices;
  const spentBy = async (page: TestPage) =>
    (await page.ask('getClassView', { groupId: null })).people.find((person) => person.personId === ids.apprentice)?.spent;
  let replaces: string | null = null;
  let spent = 0;
  for (const [material, plateKg] of [
    ['stainless-steel', 2],
    ['mild-steel', 4],
  ] as const) {
    const text = JSON.stringify({ ...shipped, id: 'own-tab', plate: { ...shipped.plate, material } });
    const saved: Reply<'saveDrill'> = await instructor.ask('saveDrill', { text, replaces });
    if (saved.outcome === 'refused') throw new Error(saved.problems[0]?.sentence);
    replaces = saved.hash;
    const { runId } = await apprentice.ask('beginRun', { ...sampleBegin(ids.apprentice), drillId: 'own-tab' });
    await apprentice.ask('appendToRun', sampleChunk(runId, 0));
    const used = { electrode: 0, nozzle: 0, shield: 0, plateKg, gasM3: 0, minutes: 0 };
    await apprentice.ask('finishRun', { ...sampleFinish(runId, CHUNK_TICKS), used });
    spent += plateKg * platePerKg[material];
    expect(await spentBy(instructor)).toBe(spent);
  }
  await host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.exec("delete from settings where name = 'practice-totals'");
  records.close();
  const again = await openTestHost({ folder });
  await again.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  expect(await spentBy(again)).toBe(spent);
});

test('whoever starts is told how far the runs of a large yard are added up, once, and nothing of a small one', async () => {
  const folder = temporaryFolder();
  const told: string[] = [];
  const open = () => openTestHost({ folder, tell: (line) => told.push(line) });
  const first = await open();
  await cutSampleRun(first);
  await first.close();
  expect(told).toEqual([]);
  fillYard(folder, { people: 10, runs: 1500 });
  await (await open()).close();
  expect(told).toEqual(
    [400, 800, 1200, 1500].map((done) => `Practice is being added up, once after the update: ${done} of 1500 runs.`),
  );
  await (await open()).close();
  expect(told).toHaveLength(4);
});
