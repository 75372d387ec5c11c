import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { cutSampleRun } from './cut-sample-run.ts';
import { fillYard } from './fill-yard.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { openYardWithRoles } from './yard-with-roles.ts';

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
