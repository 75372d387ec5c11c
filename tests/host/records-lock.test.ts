import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { SCENARIOS } from './sample-hand.ts';

function startChild(folder: string) {
  const child = spawn(process.execPath, [path.join(import.meta.dirname, 'spooling-child.ts'), folder, SCENARIOS], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (text) => {
    complaint += text;
  });
  const ready = new Promise((resolve) => child.stdout.once('data', resolve));
  const ended = new Promise<NodeJS.Signals | number | null>((resolve) =>
    child.once('close', (code, signal) => resolve(signal ?? code)),
  );
  return { child, ready, ended, complaint: () => complaint };
}

test('a second process gets a sentence with the owner, the first goes on; after a SIGKILL the next one gets in at once', async () => {
  const folder = temporaryFolder();
  const owner = startChild(folder);
  await owner.ready;
  await expect(openTestHost({ folder })).rejects.toThrow(
    `Kerfhand is already open with the records in ${folder} (process ${owner.child.pid}); close it first, or set KERFHAND_DATA to another folder.`,
  );
  const second = startChild(folder);
  expect(await second.ended).toBe(1);
  expect(second.complaint()).toContain('already open with the records');
  await new Promise((resolve) => owner.child.stdout.once('data', resolve));

  owner.child.kill('SIGKILL');
  expect(await owner.ended).toBe('SIGKILL');
  const next = await openTestHost({ folder });
  expect((await next.ask('listRuns', {})).runs.map((run) => run.state)).toEqual(['unfinished']);
});

test('two hosts in one process exclude each other too, and closing lets go', async () => {
  const folder = temporaryFolder();
  const first = await openTestHost({ folder });
  await expect(openTestHost({ folder })).rejects.toMatchObject({ code: 'in-use' });
  await first.ask('createPerson', { role: 'apprentice' });
  await first.close();
  const second = await openTestHost({ folder });
  expect((await second.ask('listPeople', {})).people).toHaveLength(1);
});

test('an owner file left by a dead process, or of nonsense, keeps nobody out', async () => {
  const folder = temporaryFolder();
  writeFileSync(path.join(folder, 'owner.json'), JSON.stringify({ pid: process.pid, startedAt: '2020-01-01T00:00:00.000Z' }));
  await (await openTestHost({ folder })).close();
  writeFileSync(path.join(folder, 'owner.json'), 'nonsense');
  await (await openTestHost({ folder })).close();
});
