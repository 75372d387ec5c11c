// A backup out over the page piece by piece, looked into over the page, and restored into another folder by the house's own means.
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { expect, test } from 'vitest';
import type { PaperJob } from '../../electron/contract.ts';
import { restoreYard } from '../../electron/host/papers/restore-yard.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { endOfJob, fetchJobFile, startedJob } from './job-ends.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

async function backUp(page: TestPage): Promise<PaperJob> {
  return await endOfJob(page, startedJob(await page.ask('backUp', {})));
}

async function upload(page: TestPage, bytes: Buffer, pieceBytes: number): Promise<string> {
  let uploadId: string | null = null;
  for (let offset = 0; uploadId === null || offset < bytes.length; offset += pieceBytes) {
    const piece = bytes.subarray(offset, offset + pieceBytes).toString('base64');
    const added: { uploadId: string } = await page.ask('addToBackup', { uploadId, offset, piece });
    uploadId = added.uploadId;
  }
  return uploadId;
}

test('the yard goes out in a file, which is looked into and restores to the same yard', async () => {
  const { instructor, apprentice, ids } = await openYardWithRoles();
  const runId = await cutSampleRun(apprentice);
  const job = await backUp(instructor);
  expect(job).toMatchObject({ kind: 'back-up', state: 'done', problem: null, backup: { people: 4, runs: 1 } });
  expect(job.file).toEqual({ fileName: expect.stringMatching(/^yard-\d{8}-\d{4}\.kerfhand-backup$/), fetch: true });
  const bytes = await fetchJobFile(instructor, job.id);
  expect(bytes.length).toBe(job.backup?.bytes);

  const uploadId = await upload(instructor, bytes, Math.ceil(bytes.length / 3));
  expect(await instructor.ask('inspectBackup', { uploadId })).toEqual(job.backup);
  expect(await instructor.refusal('addToBackup', { uploadId, offset: 5, piece: 'QUJD' })).toMatch(/^conflict: The next piece/);
  const damaged = Buffer.from(bytes);
  damaged[bytes.length - 100] ^= 1;
  const damagedId = await upload(instructor, damaged, bytes.length);
  expect(await instructor.refusal('inspectBackup', { uploadId: damagedId })).toMatch(
    /^bad-file: The backup is damaged: the digest/,
  );
  expect(await instructor.refusal('inspectBackup', { uploadId })).toMatch(/^not-found: /);
  const noneId = await upload(instructor, Buffer.from('no backup\n'), 100);
  expect(await instructor.refusal('inspectBackup', { uploadId: noneId })).toMatch(/^bad-file: This file is not a backup/);

  const folder = temporaryFolder();
  const file = path.join(temporaryFolder(), 'fetched');
  writeFileSync(file, bytes);
  await restoreYard({ file, folder, appVersion: '0.1.0', now: new Date() });
  const restored = await openTestHost({ folder });
  await restored.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  expect((await restored.ask('listRuns', {})).runs.map((run) => run.id)).toEqual([runId]);
  expect((await restored.ask('checkLedger', {})).ok).toBe(true);
});

test('a backup that finds no place to begin in does not stand in the way of the next', async () => {
  const folder = temporaryFolder();
  const log: string[] = [];
  const { instructor } = await openYardWithRoles({ folder, log: (line) => log.push(line) });
  const inTheWay = path.join(folder, '.passing');
  writeFileSync(inTheWay, 'no folder');
  expect(await backUp(instructor)).toMatchObject({ state: 'failed' });
  expect(log).toEqual([expect.stringContaining('EEXIST')]);
  rmSync(inTheWay);
  expect(await backUp(instructor)).toMatchObject({ state: 'done' });
});

test('where the shell asks, the file is put there and nothing is left to fetch', async () => {
  const to = path.join(temporaryFolder(), 'chosen.kerfhand-backup');
  let answer: string | null = null;
  const { instructor } = await openYardWithRoles({ askWhereToSave: async () => answer });
  expect(await instructor.ask('backUp', {})).toEqual({ outcome: 'cancelled' });
  answer = to;
  const job = await backUp(instructor);
  expect(job.file).toEqual({ fileName: 'chosen.kerfhand-backup', fetch: false });
  expect(readFileSync(to).length).toBe(job.backup?.bytes);
  expect(await instructor.refusal('readJobFile', { jobId: job.id, offset: 0 })).toMatch(/^conflict: /);
  answer = path.join(temporaryFolder(), 'missing', 'folder');
  const problem = 'The place that was chosen for the backup is not there; choose another.';
  expect(await backUp(instructor)).toMatchObject({ state: 'failed', problem, backup: null, file: null });
});

test('one at a time; stopped it leaves nothing; closing the host takes unfetched files away', async () => {
  const folder = temporaryFolder();
  const own = () => readdirSync(path.join(folder, '.passing'));
  const { host, instructor } = await openYardWithRoles({ folder });
  const begun = await instructor.ask('backUp', {});
  const id = begun.outcome === 'started' ? begun.job.id : '';
  expect(await instructor.refusal('backUp', {})).toMatch(/^conflict: A backup is being made already/);
  await instructor.ask('stopJob', { jobId: id });
  for (let job = await instructor.ask('getJob', { jobId: id }); job.state === 'running'; ) {
    await wait(20);
    job = await instructor.ask('getJob', { jobId: id });
  }
  expect(await instructor.ask('getJob', { jobId: id })).toMatchObject({ state: 'stopped', file: null });
  expect((await backUp(instructor)).state).toBe('done');
  await upload(instructor, Buffer.from('some bytes'), 4);
  expect(own()).toHaveLength(2);
  await host.close();
  expect(own()).toEqual([]);
});

test('a backup waits for the next start, takes the place of the records, and both sides of it can be told', async () => {
  const folder = temporaryFolder();
  const { host, instructor, assessor, apprentice, ids } = await openYardWithRoles({ folder });
  const kept = await cutSampleRun(apprentice);
  const uploadId = await upload(instructor, await fetchJobFile(instructor, (await backUp(instructor)).id), 1 << 20);
  const later = await cutSampleRun(apprentice);
  const passphrase = PASSPHRASES.instructor;
  expect(await instructor.refusal('restoreAtNextStart', { uploadId, passphrase: 'a wrong one' })).toMatch(/^wrong-passphrase: /);
  expect(await assessor.refusal('restoreAtNextStart', { uploadId, passphrase })).toMatch(/^forbidden: /);
  expect(await instructor.ask('getWaitingRestore', {})).toEqual({ waiting: null });
  const backup = await instructor.ask('restoreAtNextStart', { uploadId, passphrase });
  expect(await instructor.ask('getWaitingRestore', {})).toEqual({ waiting: { askedBy: 'Instructor 01', backup } });
  await instructor.ask('withdrawRestore', {});
  expect(await instructor.ask('getWaitingRestore', {})).toEqual({ waiting: null });
  await instructor.ask('restoreAtNextStart', { uploadId, passphrase });
  expect((await instructor.ask('listRuns', {})).total).toBe(2);
  await host.close();

  const again = await openTestHost({ folder });
  const [notice] = (await again.ask('getSession', {})).notices;
  expect(notice).toEqual({
    code: 'restored',
    message: expect.stringMatching(/^The yard was restored from the backup of .+ UTC\. /),
  });
  await again.ask('signIn', { personId: ids.instructor, passphrase });
  expect((await again.ask('listRuns', {})).runs.map((run) => run.id)).toEqual([kept]);
  const [entry] = (await again.ask('listLedger', { kinds: ['restore'] })).entries;
  expect(entry?.body).toMatchObject({ askedBy: 'Instructor 01', sha256: backup.sha256, runs: 1 });
  expect((await again.ask('checkLedger', {})).ok).toBe(true);
  await again.close();

  // What was there before is a whole yard of its own, and the start after that restores nothing.
  const before = await openTestHost({ folder: path.join(folder, String(entry?.body.keptAside)) });
  await before.ask('signIn', { personId: ids.instructor, passphrase });
  expect((await before.ask('listRuns', {})).runs.map((run) => run.id)).toEqual([later, kept]);
  const third = await openTestHost({ folder });
  expect((await third.ask('getSession', {})).notices).toEqual([]);
});

test('a waiting backup that was damaged meanwhile does not keep the yard from opening', async () => {
  const folder = temporaryFolder();
  const { host, instructor, ids } = await openYardWithRoles({ folder });
  const uploadId = await upload(instructor, await fetchJobFile(instructor, (await backUp(instructor)).id), 1 << 20);
  const passphrase = PASSPHRASES.instructor;
  await instructor.ask('restoreAtNextStart', { uploadId, passphrase });
  await host.close();
  const waiting = path.join(folder, 'next-start.kerfhand-backup');
  const bytes = readFileSync(waiting);
  bytes[bytes.length - 200] ^= 1;
  writeFileSync(waiting, bytes);
  const again = await openTestHost({ folder });
  expect((await again.ask('getSession', {})).notices).toEqual([
    {
      code: 'not-restored',
      message: expect.stringMatching(
        /^The backup was not restored and is kept as not-restored\.kerfhand-backup\. It is damaged: /,
      ),
    },
  ]);
  await again.ask('signIn', { personId: ids.instructor, passphrase });
  expect((await again.ask('listPeople', {})).people).toHaveLength(4);
  expect((await again.ask('listLedger', { kinds: ['restore'] })).total).toBe(0);
  expect(readdirSync(folder)).toContain('not-restored.kerfhand-backup');
  await again.close();

  // One that nobody asked for through the page is not restored either.
  writeFileSync(waiting, bytes);
  const third = await openTestHost({ folder });
  expect((await third.ask('getSession', {})).notices).toEqual([
    { code: 'not-restored', message: expect.stringMatching(/It is not known who asked for it\.$/) },
  ]);
});
