import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, onTestFinished, test } from 'vitest';
import { atomicWrite } from '../../electron/host/atomic-write.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { CHUNK_TICKS, sampleBegin, sampleChunk } from './sample-hand.ts';

/** Mounts a small file system for the test; false where this machine does not allow it. */
function mount(folder: string, options: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', options, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    return false;
  }
  onTestFinished(() => {
    execFileSync('umount', ['-l', folder]);
  });
  return true;
}

const NO_MOUNT = 'this machine does not allow a file system to be mounted';

test('a full database (page limit): the chunk is refused with a sentence, all acknowledged ones are kept, and it goes on when there is room', async () => {
  const folder = temporaryFolder();
  const host = await openTestHost({ folder, maxPages: 110 });
  const { runId } = await host.ask('beginRun', sampleBegin());
  let acknowledged = 0;
  let refusal = '';
  while (refusal === '' && acknowledged < 2000) {
    const answer = await host.call('appendToRun', sampleChunk(runId, acknowledged));
    if (answer.ok) acknowledged++;
    else refusal = `${answer.error.code}: ${answer.error.message}`;
  }
  expect(refusal).toBe(
    `disk-full: The disk that holds ${path.join(folder, 'records.db')} is full; free some space and try again, nothing already kept is lost.`,
  );
  expect(acknowledged).toBeGreaterThan(10);
  expect((await host.ask('getRun', { runId })).tickCount).toBe(acknowledged * CHUNK_TICKS);
  await host.close();

  const roomy = await openTestHost({ folder });
  const run = await roomy.ask('getRun', { runId });
  expect([run.state, run.tickCount]).toEqual(['unfinished', acknowledged * CHUNK_TICKS]);
  const next = await roomy.ask('beginRun', sampleBegin());
  await roomy.ask('appendToRun', sampleChunk(next.runId, 0));
});

test('a really full disk: the same, and the very chunk that was refused is taken once there is room', async ({ skip }) => {
  const folder = temporaryFolder();
  if (!mount(folder, 'size=1m')) return skip(NO_MOUNT);
  const host = await openTestHost({ folder });
  const { runId } = await host.ask('beginRun', sampleBegin());
  const ballast = path.join(folder, 'ballast');
  let acknowledged = 0;
  for (; acknowledged < 5; acknowledged++) await host.ask('appendToRun', sampleChunk(runId, acknowledged));
  fillDisk(ballast);
  let refusal = '';
  while (refusal === '' && acknowledged < 2000) {
    const answer = await host.call('appendToRun', sampleChunk(runId, acknowledged));
    if (answer.ok) acknowledged++;
    else refusal = answer.error.code;
  }
  expect(refusal).toBe('disk-full');
  expect((await host.ask('getRun', { runId })).tickCount).toBe(acknowledged * CHUNK_TICKS);
  rmSync(ballast);
  expect(await host.ask('appendToRun', sampleChunk(runId, acknowledged))).toMatchObject({ nextSequence: acknowledged + 1 });
});

/** Takes what room there is, to the last page. */
function fillDisk(file: string): void {
  for (const size of [65536, 4096]) {
    for (let full = false; !full; ) {
      try {
        writeFileSync(file, Buffer.alloc(size), { flag: 'a' });
      } catch {
        full = true;
      }
    }
  }
}

test('a read-only folder: practice and old runs work, a notice says that nothing is kept, nothing in the folder changes', async ({
  skip,
}) => {
  const folder = temporaryFolder();
  if (!mount(folder, 'size=8m')) return skip(NO_MOUNT);
  const first = await openTestHost({ folder });
  const { runId } = await first.ask('beginRun', sampleBegin());
  await first.ask('appendToRun', sampleChunk(runId, 0));
  await first.close();
  execFileSync('mount', ['-o', 'remount,ro', folder]);
  const before = readdirSync(folder).map((name) => [name, statSync(path.join(folder, name)).mtimeMs]);

  const host = await openTestHost({ folder });
  const session = await host.ask('getSession', {});
  expect(session.keepsRecords).toBe(false);
  expect(session.notices[0]).toEqual({
    code: 'records-not-kept',
    message: `The folder ${folder} cannot be written to, so practice works but nothing of this session is kept; save a run as a file to keep it.`,
  });
  expect((await host.ask('listRuns', {})).runs.map((run) => run.id)).toEqual([runId]);
  const begun = await host.ask('beginRun', sampleBegin());
  await host.ask('appendToRun', sampleChunk(begun.runId, 0));
  await host.close();
  expect(readdirSync(folder).map((name) => [name, statSync(path.join(folder, name)).mtimeMs])).toEqual(before);
});

test('a disk that is full at the start: the same, and the notice says that it is full', async ({ skip }) => {
  const folder = temporaryFolder();
  if (!mount(folder, 'size=1m')) return skip(NO_MOUNT);
  const first = await openTestHost({ folder });
  const person = await first.ask('createPerson', { role: 'apprentice' });
  await first.close();
  fillDisk(path.join(folder, 'ballast'));
  const host = await openTestHost({ folder });
  const session = await host.ask('getSession', {});
  expect([session.keepsRecords, session.notices[0]?.message]).toEqual([
    false,
    `The disk that holds ${folder} is full, so practice works but nothing of this session is kept; save a run as a file to keep it.`,
  ]);
  expect((await host.ask('listPeople', {})).people).toEqual([person]);
  await host.ask('createPerson', { role: 'apprentice' });
  await host.close();
  rmSync(path.join(folder, 'ballast'));
  expect((await (await openTestHost({ folder })).ask('listPeople', {})).people).toEqual([person]);
});

test('what a killed owner left in the log beside the file is also in the copy of a read-only folder', async ({ skip }) => {
  const folder = temporaryFolder();
  if (!mount(folder, 'size=8m')) return skip(NO_MOUNT);
  const live = temporaryFolder();
  const host = await openTestHost({ folder: live });
  const person = await host.ask('createPerson', { role: 'assessor' });
  // As a kill leaves it: the file and its log, not merged.
  for (const name of ['records.db', 'records.db-wal']) copyFileSync(path.join(live, name), path.join(folder, name));
  expect(statSync(path.join(folder, 'records.db-wal')).size).toBeGreaterThan(0);
  execFileSync('mount', ['-o', 'remount,ro', folder]);
  const reader = await openTestHost({ folder });
  expect((await reader.ask('listPeople', {})).people).toEqual([person]);
});

test('a data folder that is a file is refused with a sentence', async () => {
  const folder = temporaryFolder();
  const file = path.join(folder, 'notes.txt');
  writeFileSync(file, 'mine');
  for (const place of [file, path.join(file, 'deeper')]) {
    await expect(openTestHost({ folder: place })).rejects.toThrow(
      `${place} cannot hold records because it, or a part of its path, is a file and not a folder.`,
    );
  }
  expect(readFileSync(file, 'utf8')).toBe('mine');
});

test('a damaged records file, or one of another program, is refused and left as it is', async () => {
  const folder = temporaryFolder();
  const made = await openTestHost({ folder });
  const { runId } = await made.ask('beginRun', sampleBegin());
  for (let sequence = 0; sequence < 40; sequence++) await made.ask('appendToRun', sampleChunk(runId, sequence));
  await made.close();
  const file = path.join(folder, 'records.db');
  const good = readFileSync(file);
  const torn = Buffer.from(good);
  torn.fill(0xa5, 4096 * 3, 4096 * 8);
  const other = path.join(folder, 'other.db');
  const database = new DatabaseSync(other);
  database.exec('create table recipes (id integer); insert into recipes values (1)');
  database.close();
  const cases = {
    nonsense: Buffer.from('not a database '.repeat(500)),
    torn,
    'cut short': good.subarray(0, 4096 * 4 + 100),
    other: readFileSync(other),
  };
  for (const [name, bytes] of Object.entries(cases)) {
    writeFileSync(file, bytes);
    await expect(openTestHost({ folder }), name).rejects.toMatchObject({
      code: 'damaged',
      message: `The records file ${file} is damaged or is not a Kerfhand records file; it was left as it is, so move it away or put a good copy in its place.`,
    });
    expect(readFileSync(file).equals(bytes), name).toBe(true);
  }
  writeFileSync(file, good);
  expect((await (await openTestHost({ folder })).ask('getRun', { runId })).tickCount).toBe(40 * CHUNK_TICKS);
});

test('a file is written whole or not at all', async ({ skip }) => {
  const folder = temporaryFolder();
  const file = path.join(folder, 'run.kerfhand-run');
  atomicWrite(file, 'first\n');
  atomicWrite(file, 'second\n');
  expect(readFileSync(file, 'utf8')).toBe('second\n');
  expect(readdirSync(folder)).toEqual(['run.kerfhand-run']);
  expect(() => atomicWrite(path.join(folder, 'missing', 'x'), 'y')).toThrow(/ENOENT/);

  const small = path.join(folder, 'small');
  mkdirSync(small);
  if (!mount(small, 'size=64k')) return skip(NO_MOUNT);
  const kept = path.join(small, 'kept');
  atomicWrite(kept, 'old');
  expect(() => atomicWrite(kept, 'x'.repeat(200_000))).toThrow(/is full; free some space/);
  expect(readFileSync(kept, 'utf8')).toBe('old');
  expect(readdirSync(small)).toEqual(['kept']);
  execFileSync('mount', ['-o', 'remount,ro', small]);
  expect(() => atomicWrite(kept, 'new')).toThrow(/cannot be written to/);
  expect(existsSync(kept)).toBe(true);
});
