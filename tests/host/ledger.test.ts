import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Kysely, SqliteDialect } from 'kysely';
import { expect, onTestFinished, test } from 'vitest';
import { createLedger, entryDigest } from '../../electron/host/ledger.ts';
import { migrateRecords } from '../../electron/host/migrate-records.ts';
import { nodeSqliteDatabase } from '../../electron/host/node-sqlite-database.ts';
import type { LedgerRow, RecordsTables } from '../../electron/host/records-tables.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { withoutTriggers } from './without-triggers.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

type Yard = Awaited<ReturnType<typeof tamperedYard>>;

/** A closed yard with some entries, and what the ledger says after somebody was at its file. */
async function tamperedYard() {
  const folder = temporaryFolder();
  const { host, instructor, ids } = await openYardWithRoles({ folder });
  const before = await instructor.ask('checkLedger', {});
  await host.close();
  async function reopen() {
    const again = await openTestHost({ folder });
    await again.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
    return again;
  }
  return {
    entries: before.entries,
    tail: path.join(folder, 'records.ledger-tail'),
    change(sql: string): void {
      const records = new DatabaseSync(path.join(folder, 'records.db'));
      withoutTriggers(records, () => records.exec(sql));
      records.close();
    },
    reopen,
    check: async () => (await reopen()).ask('checkLedger', {}),
  };
}

test('what people do stands in the ledger, in order, each entry on the one before', async () => {
  const { instructor, assessor, ids } = await openYardWithRoles();
  const { total, entries } = await instructor.ask('listLedger', {});
  expect(entries.toReversed().map((entry) => [entry.seq, entry.kind, entry.who, entry.body.change])).toEqual([
    [1, 'role-change', ids.instructor, 'first-instructor'],
    [2, 'role-change', ids.instructor, 'person-added'],
    [3, 'role-change', ids.instructor, 'passphrase-given'],
    [4, 'role-change', ids.instructor, 'person-added'],
    [5, 'role-change', ids.instructor, 'person-added'],
  ]);
  expect(total).toBe(5);
  expect((await assessor.ask('listLedger', { before: 4, limit: 2 })).entries.map((entry) => entry.seq)).toEqual([3, 2]);
  expect((await assessor.ask('listLedger', { subject: ids.assessor })).total).toBe(2);
  expect((await assessor.ask('listLedger', { who: ids.instructor, kinds: ['role-change'], limit: 1 })).total).toBe(5);
  expect((await assessor.ask('listLedger', { who: ids.assessor })).entries).toEqual([]);
  expect((await assessor.ask('listLedger', { who: null })).total).toBe(0);
  expect(await assessor.ask('checkLedger', {})).toEqual({
    ok: true,
    entries: 5,
    firstWrong: null,
    sentence: 'All 5 entries of the ledger fit.',
  });
});

test('a correction is a new entry; the old one stays as it is', async () => {
  const { instructor, ids } = await openYardWithRoles();
  const [old] = (await instructor.ask('listLedger', { before: 3, limit: 1 })).entries;
  const entry = await instructor.ask('correctEntry', { seq: 2, reason: 'Added twice by mistake.' });
  expect(entry).toMatchObject({
    seq: 6,
    kind: 'correction',
    who: ids.instructor,
    body: { corrects: 2, reason: 'Added twice by mistake.' },
  });
  expect((await instructor.ask('listLedger', { before: 3, limit: 1 })).entries).toEqual([old]);
  expect(await instructor.refusal('correctEntry', { seq: 99, reason: 'No such entry.' })).toMatch(/^not-found/);
  expect((await instructor.ask('checkLedger', {})).ok).toBe(true);
});

test('the records themselves refuse to change or take out an entry', async () => {
  const folder = temporaryFolder();
  await (await openYardWithRoles({ folder })).host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  for (const sql of ["update ledger set who = 'me'", 'delete from ledger where seq = 5']) {
    expect(() => records.exec(sql)).toThrow('the ledger is only added to');
  }
  records.close();
});

test('a changed entry is named', async () => {
  const yard = await tamperedYard();
  yard.change("update ledger set who = '00000000-0000-4000-8000-000000000000' where seq = 3");
  expect(await yard.check()).toMatchObject({
    ok: false,
    firstWrong: 3,
    sentence: expect.stringContaining('Entry 3 was changed'),
  });
});

test('an entry that was made unreadable is still listed beside the others', async () => {
  const yard = await tamperedYard();
  yard.change("update ledger set body = 'no JSON' where seq = 3; update ledger set kind = 'made-up', at = 'never' where seq = 4");
  const again = await yard.reopen();
  expect(await again.ask('checkLedger', {})).toMatchObject({ ok: false, firstWrong: 3 });
  const { entries } = await again.ask('listLedger', {});
  expect(entries.map(({ seq, kind }) => [seq, kind])).toEqual([
    [5, 'role-change'],
    [4, 'unreadable'],
    [3, 'unreadable'],
    [2, 'role-change'],
    [1, 'role-change'],
  ]);
  expect(entries.find(({ seq }) => seq === 4)?.body.found).toContain('"kind":"made-up"');
});

test('a changed entry with a digest made to fit breaks the one after it', async () => {
  const yard = await tamperedYard();
  const forged: Omit<LedgerRow, 'digest'> = {
    seq: 1,
    at: '2030-01-01T00:00:00.000Z',
    who: '',
    kind: 'role-change',
    subject: 'x',
    body: '{}',
    previous: '0'.repeat(64),
  };
  yard.change(
    `update ledger set at = '${forged.at}', who = '', subject = 'x', body = '{}', digest = '${entryDigest(forged)}' where seq = 1`,
  );
  expect(await yard.check()).toMatchObject({
    ok: false,
    firstWrong: 2,
    sentence: 'Entry 2 does not follow on the one before it.',
  });
});

test('an entry taken out of the middle is missed', async () => {
  const yard = await tamperedYard();
  yard.change('delete from ledger where seq = 2');
  expect(await yard.check()).toMatchObject({ ok: false, firstWrong: 2, sentence: 'Entry 2 is missing: entry 3 comes next.' });
});

test('a cut-off end shows by the file beside the records, and so does that file being gone or changed', async () => {
  const cut = await tamperedYard();
  cut.change('delete from ledger where seq > 3');
  expect(await cut.check()).toMatchObject({
    ok: false,
    firstWrong: null,
    sentence: expect.stringContaining('the end was cut off'),
  });

  const all = await tamperedYard();
  all.change('delete from ledger');
  expect(await all.check()).toMatchObject({ ok: false, sentence: expect.stringContaining('they were taken out') });

  const gone = await tamperedYard();
  rmSync(gone.tail);
  expect(await gone.check()).toMatchObject({ ok: false, sentence: expect.stringContaining('is missing') });

  const changed = await tamperedYard();
  writeFileSync(changed.tail, readFileSync(changed.tail, 'utf8').replace(/"digest":"./, '"digest":"x'));
  expect(await changed.check()).toMatchObject({ ok: false, sentence: expect.stringContaining('is damaged') });
});

test('a file that lags behind, as after a crash between commit and writing it, is no cause for alarm', async () => {
  const folder = temporaryFolder();
  const { instructor } = await openYardWithRoles({ folder });
  const tail = path.join(folder, 'records.ledger-tail');
  const lagging = readFileSync(tail);
  await instructor.ask('createPerson', { role: 'apprentice' });
  expect(readFileSync(tail).equals(lagging)).toBe(false);
  writeFileSync(tail, lagging);
  expect(await instructor.ask('checkLedger', {})).toMatchObject({ ok: true, entries: 6 });
});

/** A yard with nobody in it yet, and what the file beside its records says. */
async function emptyYard() {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder });
  const tail = path.join(folder, 'records.ledger-tail');
  return { folder, host, tail, told: () => (JSON.parse(readFileSync(tail, 'utf8')) as { seq: number }).seq };
}

test('a kill between the first entry and its digest in the file leaves no alarm, and the next start brings the file up to it', async () => {
  const { folder, host, tail, told } = await emptyYard();
  const before = readFileSync(tail);
  expect(told()).toBe(0);
  await host.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor });
  expect(told()).toBe(1);
  await host.close();
  writeFileSync(tail, before);
  const again = await openTestHost({ folder });
  expect(told()).toBe(1);
  const { withPassphrase } = await again.ask('whoAmI', {});
  await again.ask('signIn', { personId: withPassphrase[0] as string, passphrase: PASSPHRASES.instructor });
  expect(await again.ask('checkLedger', {})).toMatchObject({ ok: true, entries: 1 });
});

test('the file is there before the first entry is committed, and an entry that never came leaves no alarm', async () => {
  const db = new Kysely<RecordsTables>({
    dialect: new SqliteDialect({ database: nodeSqliteDatabase(new DatabaseSync(':memory:')) }),
  });
  onTestFinished(() => db.destroy());
  await migrateRecords(db, 'here', '0.1.0');
  const entry = { who: null, kind: 'group', subject: 'x', body: {} } as const;
  const nowhere = createLedger(db, path.join(temporaryFolder(), 'no-such-folder', 'records.ledger-tail'));
  await expect(db.transaction().execute((step) => nowhere.add(step, entry))).rejects.toThrow();
  const tail = path.join(temporaryFolder(), 'records.ledger-tail');
  const ledger = createLedger(db, tail);
  const interrupted = db.transaction().execute(async (step) => {
    await ledger.add(step, entry);
    expect(existsSync(tail)).toBe(true);
    throw new Error('interrupted');
  });
  await expect(interrupted).rejects.toThrow('interrupted');
  expect(await ledger.check()).toMatchObject({ ok: true, entries: 0 });
  await db.transaction().execute((step) => ledger.add(step, entry));
  expect(await ledger.check()).toMatchObject({ ok: true, entries: 1 });
  rmSync(tail);
  expect(await ledger.check()).toMatchObject({ ok: false, sentence: expect.stringContaining('is missing') });
});

test.each([
  ['the end cut off', ({ change }: Yard) => change('delete from ledger where seq > 3'), /Entry 5 is not the one|was cut off/],
  ['every entry taken out', ({ change }: Yard) => change('delete from ledger'), /Entry 5 is not the one|was cut off/],
  ['the file removed', ({ tail }: Yard) => rmSync(tail), /is missing/],
  ['the file made unreadable', ({ tail }: Yard) => writeFileSync(tail, '{'), /is damaged/],
])('with %s, entries that come after it do not make good for it', async (_what, tamper, told) => {
  const yard = await tamperedYard();
  tamper(yard);
  const again = await yard.reopen();
  for (let more = 0; more < 3; more++) {
    await again.ask('createPerson', { role: 'apprentice' });
    expect(await again.ask('checkLedger', {})).toMatchObject({ ok: false, sentence: expect.stringMatching(told) });
  }
});
