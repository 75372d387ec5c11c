// Backup and restore on real files: a yard with people and real runs is written out while it is at work, lost, and put back; what
// is damaged, newer, stopped or in use leaves everything as it was.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { beforeAll, describe, expect, test } from 'vitest';
import { RECORDS_MIGRATIONS } from '../../electron/host/migrate-records.ts';
import { backUpYard } from '../../electron/host/papers/back-up-yard.ts';
import { inspectBackup, restoreYard } from '../../electron/host/papers/restore-yard.ts';
import { cutSampleRun } from '../host/cut-sample-run.ts';
import { openTestHost, type TestHost, temporaryFolder } from '../host/open-test-host.ts';
import { realRunText } from './signed-run.ts';

const NOW = new Date('2030-02-01T10:15:00.000Z');
const AT = { appVersion: '0.1.0', now: NOW };
let runTexts: string[];

beforeAll(() => {
  runTexts = [realRunText(3), realRunText(4)];
});

/** A yard in its folder with three people and the two runs; the host is still open. */
async function openYard(): Promise<{ folder: string; host: TestHost; backup: string }> {
  const top = temporaryFolder();
  const folder = path.join(top, 'yard');
  const host = await openTestHost({ folder });
  for (const role of ['apprentice', 'apprentice', 'apprentice'] as const) await host.ask('createPerson', { role });
  for (const text of runTexts) await host.ask('importRun', { text });
  await host.ask('setSettings', { units: 'inch' });
  return { folder, host, backup: path.join(top, 'yard.kerfhand-backup') };
}

/** Everything of a yard that a backup must bring back, run files to the byte. */
async function contentsOf(host: TestHost) {
  const { people } = await host.ask('listPeople', {});
  const { runs, total } = await host.ask('listRuns', {});
  const texts: string[] = [];
  const guesses: (string | null)[] = [];
  for (const { id } of runs) {
    guesses.push((await host.ask('getRun', { runId: id })).speedGuess);
    const file = await host.ask('exportRun', { runId: id });
    texts.push(file.outcome === 'text' ? file.text : '');
  }
  return { people, total, guesses, texts: texts.sort(), settings: await host.ask('getSettings', {}) };
}

const write = (folder: string, to: string) => backUpYard({ folder, to, appVersion: '0.1.0', madeAt: NOW });

describe('a yard', () => {
  test('backed up at work, lost and restored is the same yard, run files to the byte', async () => {
    const { folder, host, backup } = await openYard();
    await host.ask('noteGuess', { runId: await cutSampleRun(host), guess: 'too-slow' });
    const before = await contentsOf(host);
    expect(before).toMatchObject({ total: 3, settings: { units: 'inch' } });
    expect(before.texts).toEqual(expect.arrayContaining(runTexts));
    expect(before.guesses).toEqual(['too-slow', null, null]);
    const steps: [number, number][] = [];
    const head = await backUpYard({
      folder,
      to: backup,
      appVersion: '0.1.0',
      madeAt: NOW,
      onProgress: (...step) => steps.push(step),
    });
    expect(head).toMatchObject({ people: 3, runs: 3, recordsVersion: RECORDS_MIGRATIONS.length, madeAt: NOW.toISOString() });
    expect(steps.at(-1)?.[0]).toBe(steps.at(-1)?.[1]);
    // What is done after the backup is not in it.
    await host.ask('createPerson', { role: 'apprentice' });
    await host.close();
    expect(await inspectBackup(backup)).toEqual(head);

    const elsewhere = path.join(path.dirname(backup), 'a new machine');
    expect(await restoreYard({ file: backup, folder: elsewhere, ...AT })).toEqual({ head, keptAside: null });
    const restored = await openTestHost({ folder: elsewhere });
    expect(await contentsOf(restored)).toEqual(before);
    // Nothing but the yard is left beside it.
    await restored.close();
    expect(readdirSync(elsewhere).filter((name) => name.startsWith('restore-'))).toEqual([]);
  });

  test('restored over another keeps that one aside, and it can be had again in turn', async () => {
    const { folder, host, backup } = await openYard();
    await write(folder, backup);
    const before = await contentsOf(host);
    for (let more = 0; more < 2; more++) await host.ask('createPerson', { role: 'apprentice' });
    await host.close();
    const { keptAside } = await restoreYard({ file: backup, folder, ...AT });
    expect(keptAside).toBe(path.join(folder, 'before-restore-20300201-101500'));
    const restored = await openTestHost({ folder });
    expect(await contentsOf(restored)).toEqual(before);
    await restored.close();
    const aside = await openTestHost({ folder: keptAside! });
    expect((await aside.ask('listPeople', {})).people).toHaveLength(5);
    await aside.close();
    expect((await restoreYard({ file: backup, folder, ...AT })).keptAside).toBe(`${keptAside}-2`);
  });

  test('whose records are damaged is restored, and the damaged ones are kept', async () => {
    const { folder, host, backup } = await openYard();
    await write(folder, backup);
    const before = await contentsOf(host);
    await host.close();
    const records = path.join(folder, 'records.db');
    truncateSync(records, 5000);
    await expect(openTestHost({ folder })).rejects.toMatchObject({ code: 'damaged' });
    const { keptAside } = await restoreYard({ file: backup, folder, ...AT });
    expect(readFileSync(path.join(keptAside!, 'records.db'))).toHaveLength(5000);
    expect(await contentsOf(await openTestHost({ folder }))).toEqual(before);
  });

  test('that is open is not restored over', async () => {
    const { folder, host, backup } = await openYard();
    await write(folder, backup);
    await expect(restoreYard({ file: backup, folder, ...AT })).rejects.toMatchObject({ code: 'in-use' });
    expect((await host.ask('listPeople', {})).people).toHaveLength(3);
  });

  test('is the old one or the new one, whole, when the restoring is killed', async () => {
    const { folder, host, backup } = await openYard();
    await write(folder, backup);
    await host.ask('createPerson', { role: 'apprentice' });
    await host.close();
    const leftOvers = () => readdirSync(folder).filter((name) => name.startsWith('restore-'));
    let leftByKilled: string[] = [];
    /** People in the yard after a restoring that was killed so long after its first step; null = not killed. */
    async function peopleAfter(killAfterMs: number | null, hold: boolean): Promise<number> {
      const script = path.join(import.meta.dirname, 'restoring-child.ts');
      const args = ['--disable-warning=ExperimentalWarning', script, backup, folder, ...(hold ? ['hold'] : [])];
      const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] });
      child.stdout.once('data', () => {
        if (killAfterMs !== null) setTimeout(() => child.kill('SIGKILL'), killAfterMs);
      });
      await once(child, 'exit');
      leftByKilled = leftOvers();
      const yard = await openTestHost({ folder });
      const { people } = await yard.ask('listPeople', {});
      expect((await yard.ask('listRuns', {})).runs).toHaveLength(2);
      await yard.close();
      return people.length;
    }
    expect(await peopleAfter(0, true)).toBe(4);
    expect(leftByKilled).toHaveLength(1);
    // The next start sweeps it.
    expect(leftOvers()).toEqual([]);
    for (const ms of [0, 5, 25]) expect([3, 4]).toContain(await peopleAfter(ms, false));
    expect(await peopleAfter(null, false)).toBe(3);
    expect(leftOvers()).toEqual([]);
  });

  test('takes the last digest of its ledger along, as it stood', async () => {
    const { folder, host, backup } = await openYard();
    await host.close();
    const tail = path.join(folder, 'records.ledger-tail');
    writeFileSync(tail, '{"seq":7,"digest":"as it stood"}\n');
    await write(folder, backup);
    writeFileSync(tail, 'later');
    await restoreYard({ file: backup, folder, ...AT });
    expect(readFileSync(tail, 'utf8')).toBe('{"seq":7,"digest":"as it stood"}\n');
    expect(readFileSync(path.join(folder, 'before-restore-20300201-101500', 'records.ledger-tail'), 'utf8')).toBe('later');
  });

  test('is copied as of one moment while somebody goes on writing', async () => {
    const { folder, host, backup } = await openYard();
    await host.close();
    const writer = new DatabaseSync(path.join(folder, 'records.db'));
    // Any table of ours that takes a text of any length.
    const add = writer.prepare('INSERT INTO settings VALUES (?, ?)');
    writer.exec('BEGIN');
    for (let step = 0; step < 6000; step++) add.run(`ballast ${step}`, 'x'.repeat(4000));
    writer.exec('COMMIT');
    let step = 6000;
    const busy = setInterval(() => add.run(`ballast ${step++}`, 'y'.repeat(4000)), 1);
    try {
      await write(folder, backup);
    } finally {
      clearInterval(busy);
    }
    writer.close();
    const into = path.join(path.dirname(backup), 'restored');
    await restoreYard({ file: backup, folder: into, ...AT });
    const restored = new DatabaseSync(path.join(into, 'records.db'), { readOnly: true });
    const ballast =
      "SELECT count(*) AS count, max(cast(substr(name, 9) AS integer)) AS last FROM settings WHERE name LIKE 'ballast %'";
    const counted = restored.prepare(ballast).get() as {
      count: number;
      last: number;
    };
    restored.close();
    expect(counted.count).toBe(counted.last + 1);
    expect(counted.count).toBeGreaterThanOrEqual(6000);
    expect(step).toBeGreaterThan(counted.count);
  });
});

describe('a backup', () => {
  async function backedUp() {
    const { folder, host, backup } = await openYard();
    await write(folder, backup);
    await host.close();
    return { folder, backup, bytes: readFileSync(backup) };
  }
  /** Names and bytes of the files of a folder, without the lock that every opening leaves. */
  const filesOf = (folder: string) =>
    readdirSync(folder)
      .filter((name) => !/^(lock\.db|owner\.json|records\.db-(wal|shm))/.test(name))
      .map((name) => [name, readFileSync(path.join(folder, name)).toString('base64')]);

  test('is one readable line and the files, every byte of it covered', async () => {
    const { folder, backup, bytes } = await backedUp();
    const line = bytes.subarray(0, bytes.indexOf(0x0a)).toString('utf8');
    const { files, ...head } = JSON.parse(line) as { files: { bytes: number }[] };
    expect(head).toMatchObject({ format: 'kerfhand-backup', formatVersion: 1, people: 3, runs: 2, appVersion: '0.1.0' });
    expect(bytes.indexOf(0x0a) + 1 + files.reduce((sum, file) => sum + file.bytes, 0)).toBe(bytes.length);
    const before = filesOf(folder);
    const places = [0, 20, line.length - 5, line.length, line.length + 200, bytes.length >> 1, bytes.length - 1];
    for (const place of places) {
      const spoilt = Buffer.from(bytes);
      spoilt[place] ^= 0x01;
      writeFileSync(backup, spoilt);
      await expect(restoreYard({ file: backup, folder, ...AT }), `byte ${place}`).rejects.toMatchObject({ code: 'bad-file' });
    }
    writeFileSync(backup, bytes.subarray(0, -1));
    await expect(restoreYard({ file: backup, folder, ...AT })).rejects.toThrow(/should be \d+\. Nothing was changed/);
    writeFileSync(backup, bytes);
    appendFileSync(backup, 'x');
    await expect(inspectBackup(backup)).rejects.toMatchObject({ code: 'bad-file' });
    expect(filesOf(folder)).toEqual(before);
  });

  test('that is none, is missing or is of a newer program gets a sentence', async () => {
    const { folder, backup, bytes } = await backedUp();
    const text = path.join(path.dirname(backup), 'text');
    writeFileSync(text, 'hello\n');
    await expect(inspectBackup(text)).rejects.toThrow('is not a backup of Kerfhand');
    await expect(inspectBackup(`${text}-not`)).rejects.toMatchObject({ code: 'not-found' });
    await expect(inspectBackup(folder)).rejects.toThrow('is a folder');
    writeFileSync(backup, bytes.toString('latin1').replace('"formatVersion":1', '"formatVersion":2'), 'latin1');
    await expect(inspectBackup(backup)).rejects.toMatchObject({ code: 'newer-version' });
  });

  test('of records of a newer program is left alone, and so is the yard', async () => {
    const { folder, backup } = await backedUp();
    const newer = path.join(path.dirname(backup), 'newer');
    await restoreYard({ file: backup, folder: newer, ...AT });
    const records = new DatabaseSync(path.join(newer, 'records.db'));
    records.exec("INSERT INTO migrations VALUES (9999, '9999-later', '2040-01-01T00:00:00.000Z', '9.0.0')");
    records.close();
    await write(newer, backup);
    const before = filesOf(folder);
    await expect(restoreYard({ file: backup, folder, ...AT })).rejects.toMatchObject({ code: 'newer-version' });
    expect(filesOf(folder)).toEqual(before);
  });

  test('of records of an older version comes up to today', async () => {
    const top = temporaryFolder();
    const old = path.join(top, 'old');
    mkdirSync(old);
    const fixture = path.join(import.meta.dirname, '..', 'host', 'old-files', 'records-version-1.db');
    writeFileSync(path.join(old, 'records.db'), readFileSync(fixture));
    const head = await write(old, path.join(top, 'old.backup'));
    expect(head.recordsVersion).toBe(1);
    await restoreYard({ file: path.join(top, 'old.backup'), folder: path.join(top, 'now'), ...AT });
    const host = await openTestHost({ folder: path.join(top, 'now') });
    expect((await host.ask('listPeople', {})).people).toHaveLength(head.people);
  });

  test('can be stopped, writing and restoring, and then nothing was done', async () => {
    const { folder, backup } = await backedUp();
    const before = filesOf(folder);
    const to = path.join(path.dirname(backup), 'second');
    const stop = new AbortController();
    const stopped = { signal: stop.signal, onProgress: () => stop.abort() };
    await expect(backUpYard({ folder, to, appVersion: '0.1.0', madeAt: NOW, ...stopped })).rejects.toMatchObject({
      code: 'conflict',
    });
    expect(existsSync(to)).toBe(false);
    const again = new AbortController();
    const restoring = { signal: again.signal, onProgress: () => again.abort() };
    await expect(restoreYard({ file: backup, folder, ...AT, ...restoring })).rejects.toMatchObject({ code: 'conflict' });
    expect(filesOf(folder)).toEqual(before);
    expect(readdirSync(path.dirname(backup)).sort()).toEqual(['yard', 'yard.kerfhand-backup']);
  });

  test('is made where its folder cannot be synced, and told of where the disk fails', async () => {
    const { folder } = await openYard();
    const to = path.join(temporaryFolder(), 'yard.backup');
    const write = (code: string) =>
      backUpYard({
        ...{ folder, to, appVersion: '0.1.0', madeAt: NOW },
        syncBySystem: () => {
          throw Object.assign(new Error(`${code}: the folder`), { code });
        },
      });
    for (const code of ['EACCES', 'EPERM', 'EINVAL']) expect(await write(code)).toMatchObject({ appVersion: '0.1.0' });
    expect((await inspectBackup(to)).appVersion).toBe('0.1.0');
    await expect(write('ENOSPC')).rejects.toMatchObject({ code: 'disk-full' });
  });

  test('is not made of nothing, and damaged records are not backed up', async () => {
    const { folder, backup } = await backedUp();
    const empty = temporaryFolder();
    await expect(write(empty, backup)).rejects.toMatchObject({ code: 'not-found' });
    truncateSync(path.join(folder, 'records.db'), 8192);
    const to = path.join(path.dirname(backup), 'third');
    await expect(write(folder, to)).rejects.toMatchObject({ code: 'damaged' });
    expect(existsSync(to)).toBe(false);
  });
});
