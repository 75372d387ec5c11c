import { readFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Kysely, SqliteDialect } from 'kysely';
import { expect, onTestFinished, test } from 'vitest';
import { migrateRecords, RECORDS_MIGRATIONS } from '../../electron/host/migrate-records.ts';
import { nodeSqliteDatabase } from '../../electron/host/node-sqlite-database.ts';
import type { RecordsTables } from '../../electron/host/records-tables.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';

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
  expect(tables()).toEqual([
    'drill_versions',
    'migrations',
    'own_drills',
    'people',
    'run_spool',
    'runs',
    'settings',
    'speed_windows',
  ]);
  const audit = await db.selectFrom('migrations').select(['version', 'name', 'app_version']).execute();
  expect(audit).toEqual([{ version: 1, name: '001-first-records', app_version: '0.1.0' }]);
});

test('a step that fails takes the whole of it back', async () => {
  const { db, tables } = openMemory();
  await migrateRecords(db, 'here', '0.1.0');
  const before = tables();
  const two = {
    name: '002-half',
    async up(step: Kysely<never>) {
      await step.schema.createTable('half').addColumn('id', 'text').execute();
    },
  };
  const three = { name: '003-broken', up: () => Promise.reject(new Error('broken step')) };
  await expect(migrateRecords(db, 'here', '0.3.0', [...RECORDS_MIGRATIONS, two, three])).rejects.toThrow('broken step');
  expect(tables()).toEqual(before);
  expect(await migrateRecords(db, 'here', '0.3.0', [...RECORDS_MIGRATIONS, two])).toEqual(['002-half']);
  expect(tables()).toContain('half');
});

test('a newer file is refused with both versions, and not one byte of it changes', async () => {
  const folder = temporaryFolder();
  await (await openTestHost({ folder })).close();
  const file = path.join(folder, 'records.db');
  const database = new DatabaseSync(file);
  database.exec("insert into migrations values (2, '002-of-the-future', '2030-01-01T00:00:00.000Z', '7.5.0')");
  database.close();
  const before = readFileSync(file);
  await expect(openTestHost({ folder })).rejects.toThrow(
    `The records in ${file} are of version 2 (written by Kerfhand 7.5.0), this Kerfhand 0.1.0 knows records up to version 1; use the newer program, nothing was changed.`,
  );
  expect(readFileSync(file).equals(before)).toBe(true);
});

test('steps of another name under a known number are not taken for ours', async () => {
  const { db } = openMemory();
  await migrateRecords(db, 'here', '0.1.0');
  await db.updateTable('migrations').set({ name: '001-of-a-branch' }).execute();
  await expect(migrateRecords(db, 'here', '0.1.0')).rejects.toMatchObject({ code: 'newer-version' });
});
