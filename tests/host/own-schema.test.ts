// Records that somebody else has had their hands on: what they add to the tables is refused before any of it can run.
import { copyFileSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { describe, expect, test } from 'vitest';
import { openYards } from '../../electron/host/open-yards.ts';
import { backUpYard } from '../../electron/host/papers/back-up-yard.ts';
import { restoreYard } from '../../electron/host/papers/restore-yard.ts';
import { keepForStart } from '../../electron/host/restore-at-start.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { SCENARIOS } from './sample-hand.ts';

/** What is done to the records, and how the sentence calls it. */
const FOREIGN: [string, string][] = [
  ['CREATE TRIGGER spy AFTER UPDATE ON settings BEGIN DELETE FROM people; END', 'the trigger "spy"'],
  ['CREATE TRIGGER early BEFORE INSERT ON migrations BEGIN DELETE FROM people; END', 'the trigger "early"'],
  ['CREATE VIEW everybody AS SELECT * FROM people', 'the view "everybody"'],
  ['CREATE TABLE extra (id TEXT)', 'the table "extra"'],
  ['CREATE VIRTUAL TABLE found USING fts5(text)', 'the table "found", the table "found_data" and 4 more'],
  ['CREATE INDEX heavy ON people (length(hex(zeroblob(number))))', 'the index "heavy"'],
  ['CREATE INDEX some ON people (number) WHERE role > 1', 'the index "some"'],
  ['ALTER TABLE people ADD COLUMN heavy TEXT AS (hex(zeroblob(100000000)))', 'the table "people"'],
  ['ALTER TABLE settings ADD COLUMN more TEXT CHECK (length(more) < 3)', 'the table "settings"'],
  ['ALTER TABLE migrations ADD COLUMN more TEXT AS (hex(zeroblob(100000000)))', 'the table "migrations"'],
  ['ALTER TABLE migrations RENAME TO kept; CREATE VIEW migrations AS SELECT * FROM kept', 'the view "migrations"'],
  ['DROP TABLE practice; CREATE VIEW practice AS SELECT 1 AS person_id', 'the view "practice"'],
  ['CREATE TABLE "a\nb\u202ec\u0007" (id TEXT)', 'the table "a?b?c?"'],
  [`CREATE TABLE "${'long '.repeat(40)}" (id TEXT)`, `the table "${'long '.repeat(6)}..."`],
];

/** The same for what is taken away. */
const LACKING: [string, string][] = [
  ['DROP TABLE practice_weeks', 'the table "practice_weeks"'],
  ['DROP TRIGGER ledger_no_update', 'the trigger "ledger_no_update"'],
  ['DROP INDEX runs_by_time', 'the index "runs_by_time"'],
  ['DROP TABLE migrations', 'the table "migrations"'],
];

const NOW = new Date('2030-02-01T10:15:00.000Z');

/** A closed yard with two people. */
async function closedYard(): Promise<string> {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder });
  for (const role of ['apprentice', 'instructor'] as const) await host.ask('createPerson', { role });
  await host.close();
  return folder;
}

function change(folder: string, sql: string): void {
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.exec(sql);
  records.close();
}

async function backUp(folder: string): Promise<string> {
  const to = path.join(temporaryFolder(), 'yard.kerfhand-backup');
  await backUpYard({ folder, to, appVersion: '0.1.0', madeAt: NOW });
  return to;
}

describe('a records file put into the folder', () => {
  test.each(FOREIGN)('with %s is refused by name, and not one byte of it changes', async (sql, named) => {
    const folder = await closedYard();
    change(folder, sql);
    const file = path.join(folder, 'records.db');
    const before = readFileSync(file);
    await expect(openTestHost({ folder })).rejects.toMatchObject({
      code: 'damaged',
      message: `The records file ${file} holds what Kerfhand does not make: ${named}; it was left as it is, so move it away or put a good copy in its place.`,
    });
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test.each(LACKING)('after %s is refused by name', async (sql, named) => {
    const folder = await closedYard();
    change(folder, sql);
    await expect(openTestHost({ folder })).rejects.toThrow(new RegExp(`lacks what Kerfhand makes: .*${named}`));
  });

  test('in which nothing was made yet is filled', async () => {
    const folder = temporaryFolder();
    change(folder, 'PRAGMA application_id = 1262834246');
    expect((await (await openTestHost({ folder })).ask('listPeople', {})).people).toEqual([]);
  });

  test('of every older version is opened, and refused with something foreign in it', async () => {
    for (const version of [1, 2, 5, 8, 9, 10]) {
      const folder = temporaryFolder();
      copyFileSync(path.join(import.meta.dirname, 'old-files', `records-version-${version}.db`), path.join(folder, 'records.db'));
      change(folder, 'CREATE TRIGGER spy AFTER INSERT ON migrations BEGIN DELETE FROM people; END');
      await expect(openTestHost({ folder }), `version ${version}`).rejects.toMatchObject({ code: 'damaged' });
      change(folder, 'DROP TRIGGER spy');
      await (await openTestHost({ folder })).close();
    }
  });

  test('may say of its steps what it likes: the sentence stays one', async () => {
    const folder = await closedYard();
    change(folder, 'UPDATE migrations SET version = -9007199254740993 WHERE version = 1');
    await expect(openTestHost({ folder })).rejects.toMatchObject({ code: 'damaged' });
    const strange = "name = 'x', app_version = 'a' || char(10, 8238) || hex(zeroblob(999))";
    change(folder, `UPDATE migrations SET version = 1 WHERE version < 1; UPDATE migrations SET ${strange}`);
    await expect(openTestHost({ folder })).rejects.toThrow(
      / \(written by Kerfhand a\?\?0{27}\.\.\.\), this Kerfhand 0\.1\.0 knows/,
    );
  });

  test('may say of itself what a whole number cannot be: that is no fault of the program', async () => {
    const folder = await closedYard();
    change(folder, 'UPDATE people SET number = -9007199254740993');
    const host = await openTestHost({ folder });
    expect(await host.refusal('listPeople', {})).toMatch(
      /^damaged: The records in .* hold something that is not as Kerfhand writes/,
    );
  });
});

describe('a backup', () => {
  test('with something foreign in its records is refused, and the yard stays as it was', async () => {
    const folder = await closedYard();
    const foreign = await closedYard();
    change(foreign, 'CREATE TRIGGER spy AFTER INSERT ON ledger BEGIN DELETE FROM people; END');
    const file = await backUp(foreign);
    const before = readFileSync(path.join(folder, 'records.db'));
    await expect(restoreYard({ file, folder, appVersion: '0.1.0', now: NOW })).rejects.toMatchObject({
      code: 'bad-file',
      message: `The backup ${file} holds what Kerfhand does not make: the trigger "spy". Nothing was changed.`,
    });
    expect(readFileSync(path.join(folder, 'records.db')).equals(before)).toBe(true);
  });

  test('that waits for the start is put aside, and the start says why', async () => {
    const folder = await closedYard();
    const foreign = await closedYard();
    change(foreign, 'CREATE VIEW everybody AS SELECT * FROM people');
    const bytes = 1;
    const facts = { madeAt: NOW.toISOString(), appVersion: '0.1.0', recordsVersion: 11, people: 2, runs: 0, bytes };
    await keepForStart(folder, await backUp(foreign), {
      askedBy: 'Instructor 01',
      backup: { ...facts, sha256: '0'.repeat(64) },
    });
    const host = await openTestHost({ folder });
    expect((await host.ask('getSession', {})).notices).toEqual([
      {
        code: 'not-restored',
        message:
          'The backup was not restored and is kept as not-restored.kerfhand-backup. It holds what Kerfhand does not make: the view "everybody". Nothing was changed.',
      },
    ]);
    expect((await host.ask('listPeople', {})).people).toHaveLength(2);
  });
});

test('the demo yard as it is shipped is Kerfhand’s own, and one that was changed where it lies is not opened', async () => {
  const folder = temporaryFolder();
  const open = () => openYards({ folder, scenariosFolder: SCENARIOS, shell: 'loopback', appVersion: '0.1.0' });
  const first = await open();
  expect(await first.call('openDemoYard', {})).toMatchObject({ ok: true });
  await first.close();
  change(path.join(folder, 'demo-yard'), 'CREATE TRIGGER spy AFTER INSERT ON ledger BEGIN DELETE FROM people; END');
  const second = await open();
  expect(await second.call('openDemoYard', {})).toMatchObject({ ok: false, error: { code: 'damaged' } });
  expect(await second.call('getDemoYard', {})).toMatchObject({ ok: true });
  await second.close();
});
