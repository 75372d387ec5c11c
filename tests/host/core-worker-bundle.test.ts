// In a built shell the host is one file and its worker another beside it: both are built as the shell's build does it, and used.
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { buildEntry } from '../../electron/bootstrap/build.mjs';
import type * as CoreWorkersModule from '../../electron/host/core-workers.ts';
import { longRunText } from './long-run.ts';
import { temporaryFolder } from './open-test-host.ts';

test('the built worker is found by the built host and cuts a run again', async () => {
  const folder = temporaryFolder();
  await buildEntry('host/core-workers.ts', 'es', 'main.mjs', folder);
  await buildEntry('host/core-worker.ts', 'es', 'core-worker.mjs', folder);
  const built = (await import(/* @vite-ignore */ pathToFileURL(path.join(folder, 'main.mjs')).href)) as typeof CoreWorkersModule;
  const workers = built.createCoreWorkers();
  onTestFinished(() => workers.close());
  let ticks = 0;
  const onTicks = (done: number) => {
    ticks = done;
  };
  expect(await workers.run('verify', longRunText(), { onTicks })).toMatchObject({ verdict: 'same' });
  expect(ticks).toBe(72_000);
  await expect(workers.run('readRun', 'no run')).rejects.toMatchObject({ name: 'HostError', code: 'bad-file' });
});
