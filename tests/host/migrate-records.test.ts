import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Kysely, SqliteDialect } from 'kysely';
import { expect, onTestFinished, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../electron/contract.ts';
import { migrateRecords, RECORDS_MIGRATIONS } from '../../electron/host/migrate-records.ts';
import { nodeSqliteDatabase } from '../../electron/host/node-sqlite-database.ts';
import type { RecordsTables } from '../../electron/host/records-tables.ts';
import { decodeHandLog } from '../../sim-core/index.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { SAMPLE_HAND_SCALE } from './sample-hand.ts';

function openMemory() {
  const database = new DatabaseSync(':memory:');
  const db = new Kysely<RecordsTables>({ dialect: new SqliteDialect({ database: nodeSqliteDatabase(database) }) });
  onTestFinished(() => db.destroy());
  const tables = () =>
    database
      .prepare("select name from sqlite_schema where type = 'table' and name not like 'sqlite_%' order by name")
      .all()
      .map((row) => row.name);
  return { database, db, tables };
}

test('an empty file goes through every step once; a second time there is nothing to do', async () => {
  const { db, tables } = openMemory();
  expect(await migrateRecords(db, 'here', '0.1.0')).toEqual(RECORDS_MIGRATIONS.map((migration) => migration.name));
  expect(await migrateRecords(db, 'here', '0.2.0')).toEqual([]);
  expect(tables()).toContain('runs');
  const audit = await db.selectFrom('migrations').select(['version', 'name', 'app_version']).execute();
  expect(audit).toEqual(RECORDS_MIGRATIONS.map(({ name }, index) => ({ version: index + 1, name, app_version: '0.1.0' })));
});

test('steps have their number in their name and are never shuffled', () => {
  expect(RECORDS_MIGRATIONS.map(({ name }) => Number(name.slice(0, 3)))).toEqual(RECORDS_MIGRATIONS.map((_, index) => index + 1));
});

test('a step that fails takes the whole of it back', async () => {
  const { db, tables } = openMemory();
  await migrateRecords(db, 'here', '0.1.0');
  const before = tables();
  const two = {
    name: '004-half',
    async up(step: Kysely<never>) {
      await step.schema.createTable('half').addColumn('id', 'text').execute();
    },
  };
  const three = { name: '005-broken', up: () => Promise.reject(new Error('broken step')) };
  await expect(migrateRecords(db, 'here', '0.3.0', [...RECORDS_MIGRATIONS, two, three])).rejects.toThrow('broken step');
  expect(tables()).toEqual(before);
  expect(await migrateRecords(db, 'here', '0.3.0', [...RECORDS_MIGRATIONS, two])).toEqual(['004-half']);
  expect(tables()).toContain('half');
});

test('a newer file is refused with both versions, and not one byte of it changes', async () => {
  const folder = temporaryFolder();
  await (await openTestHost({ folder })).close();
  const file = path.join(folder, 'records.db');
  const database = new DatabaseSync(file);
  const newest = RECORDS_MIGRATIONS.length + 1;
  database.exec(`insert into migrations values (${newest}, 'of-the-future', '2030-01-01T00:00:00.000Z', '7.5.0')`);
  database.close();
  const before = readFileSync(file);
  await expect(openTestHost({ folder })).rejects.toThrow(
    `The records in ${file} are of version ${newest} (written by Kerfhand 7.5.0), this Kerfhand 0.1.0 knows records up to version ${newest - 1}; use the newer program, nothing was changed.`,
  );
  expect(readFileSync(file).equals(before)).toBe(true);
});

test('steps of another name under a known number are not taken for ours', async () => {
  const { db } = openMemory();
  await migrateRecords(db, 'here', '0.1.0');
  await db.updateTable('migrations').set({ name: '001-of-a-branch' }).execute();
  await expect(migrateRecords(db, 'here', '0.1.0')).rejects.toMatchObject({ code: 'newer-version' });
});

/** Made by Kerfhand 0.1.0 with the first step alone: two people, a finished and an abandoned run, settings, a speed window. */
test('a kept file of version 1 opens with everything that was in it; its runs have no choices and no diagnosis', async () => {
  const folder = temporaryFolder();
  copyFileSync(path.join(import.meta.dirname, 'old-files', 'records-version-1.db'), path.join(folder, 'records.db'));
  const host = await openTestHost({ folder });
  const { people, chosenId } = await host.ask('listPeople', {});
  expect(people.map((person) => person.name)).toEqual(['Apprentice 01', 'Instructor 01']);
  expect(chosenId).toBe(people[0]?.id);
  expect(await host.ask('getSettings', {})).toMatchObject({ units: 'inch', theme: 'dark' });
  const { runs } = await host.ask('listRuns', {});
  expect(runs.map((run) => [run.state, run.tickCount, run.score]).toSorted()).toEqual([
    ['abandoned', 180, null],
    ['finished', 240, 81.5],
  ]);
  for (const { id, tickCount } of runs) {
    const run = await host.ask('getRun', { runId: id });
    expect(run).toMatchObject({ choices: null, diagnosis: null });
    expect(decodeHandLog(new Uint8Array(Buffer.from(run.inputs, 'base64'))).length).toBe(tickCount);
    expect((await host.ask('exportRun', { runId: id })).outcome).toBe('text');
  }
  await host.close();
  const database = new DatabaseSync(path.join(folder, 'records.db'));
  expect(database.prepare('select version, name from migrations order by version').all()).toEqual(
    RECORDS_MIGRATIONS.map(({ name }, index) => ({ version: index + 1, name })),
  );
  database.close();
});

/** Made by Kerfhand 0.1.0 with the first two steps: two people, two versions of an own drill, a finished run with choices and diagnosis. */
test('a kept file of version 2 opens with both versions of its drill; none of them has a demonstration yet', async () => {
  const folder = temporaryFolder();
  copyFileSync(path.join(import.meta.dirname, 'old-files', 'records-version-2.db'), path.join(folder, 'records.db'));
  const host = await openTestHost({ folder });
  const { versions } = await host.ask('listDrillVersions', { id: 'own-tab' });
  expect(versions.map(({ number, title, current, runs }) => [number, title, current, runs])).toEqual([
    [2, 'Own tab, changed', true, 1],
    [1, 'Own tab', false, 0],
  ]);
  expect(versions.map((version) => version.demonstrationRunId)).toEqual([null, null]);
  const { runs } = await host.ask('listRuns', {});
  const run = await host.ask('getRun', { runId: runs[0]?.id as string });
  expect([run.drillHash, run.choices?.nozzle, run.diagnosis?.cause]).toEqual([versions[0]?.hash, 'small', 'wet-gas']);
});

/**
 * Made by Kerfhand 0.1.0 with the first five steps: an instructor and an assessor with passphrases, two apprentices, five
 * finished runs (one of an assessment, one by nobody), one that broke off, one given up, and a ledger with its end beside it.
 */
test('a kept file of version 5 opens with its contents moved, its totals made and its ledger whole', async () => {
  const folder = temporaryFolder();
  const kept = (name: string) => path.join(import.meta.dirname, 'old-files', name);
  copyFileSync(kept('records-version-5.db'), path.join(folder, 'records.db'));
  copyFileSync(kept('records-version-5.ledger-tail'), path.join(folder, 'records.ledger-tail'));
  const host = await openTestHost({ folder });
  const { people } = await host.ask('listPeople', {});
  const instructor = people.find((person) => person.role === 'instructor');
  await host.ask('signIn', { personId: instructor?.id ?? '', passphrase: 'slipway at low water' });
  expect(await host.ask('checkLedger', {})).toMatchObject({ ok: true, entries: 5 });
  const { runs } = await host.ask('listRuns', {});
  expect(runs.map((run) => [run.state, run.tickCount, run.score]).toSorted()).toEqual([
    ['abandoned', 60, null],
    ['finished', 240, 60],
    ['finished', 240, 60],
    ['finished', 240, 60],
    ['finished', 240, 81.5],
    ['finished', 240, 81.5],
    ['unfinished', 120, null],
  ]);
  for (const { id, state, tickCount } of runs) {
    const run = await host.ask('getRun', { runId: id });
    expect(decodeHandLog(new Uint8Array(Buffer.from(run.inputs, 'base64'))).length).toBe(tickCount);
    expect(run.trace?.fields ?? null).toEqual(state === 'finished' ? ['xMm', 'yMm'] : null);
    expect(run.digests?.length ?? 0).toBe(state === 'finished' ? 2 : 0);
    expect(run.scoreRecord?.score ?? null).toBe(run.score);
  }
  const view = await host.ask('getClassView', { groupId: null });
  expect(view.people.map((person) => [person.name, person.finished, person.drillsTried, person.drillsPassed])).toEqual([
    ['Apprentice 01', 3, 2, 2],
    ['Apprentice 02', 1, 1, 0],
  ]);
});

/**
 * Made by Kerfhand 0.1.0 with the first eight steps: an instructor, an assessor and an apprentice in a group, two versions of an
 * own drill, an assignment, a run that was handed in, noted on and decided with a signature, and a ledger with its end beside it.
 */
test('a kept file of version 8 opens with its verdict good; none of its drills is a draft', async () => {
  const folder = temporaryFolder();
  const kept = (name: string) => path.join(import.meta.dirname, 'old-files', name);
  copyFileSync(kept('records-version-8.db'), path.join(folder, 'records.db'));
  copyFileSync(kept('records-version-8.ledger-tail'), path.join(folder, 'records.ledger-tail'));
  const host = await openTestHost({ folder });
  const { people } = await host.ask('listPeople', {});
  const instructor = people.find((person) => person.role === 'instructor');
  await host.ask('signIn', { personId: instructor?.id ?? '', passphrase: 'slipway at low water' });
  expect(await host.ask('checkLedger', {})).toMatchObject({ ok: true });
  const { drills } = await host.ask('listDrills', {});
  expect(drills.filter((drill) => drill.source === 'own').map(({ title, draft }) => [title, draft])).toEqual([
    ['Own tab, wider', false],
  ]);
  expect(drills.some((drill) => drill.draft)).toBe(false);
  const [assignment] = (await host.ask('listAssignments', {})).assignments;
  expect(assignment?.drills.map((drill) => drill.drillId)).toEqual(['hanger-tab-straight-6', 'own-tab']);
  const { rows } = await host.ask('listQueue', { state: 'decided' });
  const runId = rows[0]?.run.id ?? '';
  const { verdicts } = await host.ask('listVerdicts', { runId });
  expect(verdicts).toMatchObject([{ decision: 'not-yet-competent', check: 'fits' }]);
  expect((await host.ask('listNotes', { runId })).notes.map((note) => note.text)).toEqual(['Too far off']);
  // A draft goes into the new table at once.
  const { drill, text } = await host.ask('getDrill', { id: 'own-tab' });
  const changed = JSON.stringify({ ...JSON.parse(text), title: 'Own tab, tried' });
  expect(await host.ask('saveDrill', { text: changed, replaces: drill.hash, draft: true })).toMatchObject({ outcome: 'saved' });
});

/**
 * Made by Kerfhand 0.1.0 with the first nine steps: an apprentice, two finished runs (one with choices), one given up, settings, and
 * a ledger of one entry with its end beside it.
 */
test('a kept file of version 9 opens with its runs; no hand of theirs was measured, and one of today may be', async () => {
  const folder = temporaryFolder();
  const kept = (name: string) => path.join(import.meta.dirname, 'old-files', name);
  copyFileSync(kept('records-version-9.db'), path.join(folder, 'records.db'));
  copyFileSync(kept('records-version-9.ledger-tail'), path.join(folder, 'records.ledger-tail'));
  const host = await openTestHost({ folder });
  const { runs } = await host.ask('listRuns', {});
  expect(runs.map(({ state, hand }) => [state, hand.kind]).toSorted()).toEqual([
    ['abandoned', 'keyboard'],
    ['finished', 'gamepad'],
    ['finished', 'mouse'],
  ]);
  for (const { id } of runs) expect((await host.ask('getRun', { runId: id })).handScale).toBeNull();
  const settings = await host.ask('getSettings', {});
  expect([settings.units, settings.theme]).toEqual(['inch', 'dark']);
  expect(settings.hand).toEqual(DEFAULT_SETTINGS.hand);
  const runId = await cutSampleRun(host, { handScale: SAMPLE_HAND_SCALE });
  expect((await host.ask('getRun', { runId })).handScale).toEqual(SAMPLE_HAND_SCALE);
  await host.ask('makeFirstInstructor', { passphrase: 'slipway at low water' });
  expect(await host.ask('checkLedger', {})).toMatchObject({ ok: true, entries: 2 });
});

/** Made by Kerfhand 0.1.0 with the first ten steps: an apprentice and two finished runs, one with a measured hand. */
test('a kept file of version 10 opens with its runs; nothing was guessed of them, and may be of one, once', async () => {
  const folder = temporaryFolder();
  copyFileSync(path.join(import.meta.dirname, 'old-files', 'records-version-10.db'), path.join(folder, 'records.db'));
  const host = await openTestHost({ folder });
  const { runs } = await host.ask('listRuns', {});
  expect(runs.map(({ score, personName }) => [score, personName]).toSorted()).toEqual([
    [62, 'Apprentice 01'],
    [81.5, 'Apprentice 01'],
  ]);
  const kept = await Promise.all(runs.map(({ id }) => host.ask('getRun', { runId: id })));
  expect(kept.map(({ speedGuess }) => speedGuess)).toEqual([null, null]);
  expect(kept.filter(({ handScale }) => handScale !== null)).toHaveLength(1);
  const runId = await cutSampleRun(host);
  expect(await host.ask('noteGuess', { runId, guess: 'too-slow' })).toEqual({ guess: 'too-slow' });
  expect((await host.ask('getRun', { runId })).speedGuess).toBe('too-slow');
});

/** Made by Kerfhand 0.1.0 with the first eleven steps: an apprentice with a run of each of two versions of an own drill, of two metals. */
test('a kept file of version 11 opens with its plate billed by the metal that each run was cut from', async () => {
  const folder = temporaryFolder();
  const kept = (name: string) => path.join(import.meta.dirname, 'old-files', name);
  copyFileSync(kept('records-version-11.db'), path.join(folder, 'records.db'));
  copyFileSync(kept('records-version-11.ledger-tail'), path.join(folder, 'records.ledger-tail'));
  const host = await openTestHost({ folder });
  const { platePerKg } = DEFAULT_SETTINGS.prices;
  await host.ask('makeFirstInstructor', { passphrase: 'slipway at low water' });
  const [apprentice] = (await host.ask('getClassView', { groupId: null })).people;
  expect([apprentice?.finished, apprentice?.drillsTried]).toEqual([2, 1]);
  expect(apprentice?.spent).toBe(2 * platePerKg['stainless-steel'] + 3 * platePerKg['mild-steel']);
});

test('the kept files stand alone: nobody opened one in its place', () => {
  const names = readdirSync(path.join(import.meta.dirname, 'old-files'));
  expect(names.filter((name) => !/^records-version-\d+\.(db|ledger-tail)$/.test(name))).toEqual([]);
});
