// A run file of the first version, kept as core 1.0.0 wrote it: read whole, and told as another core's.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { RUN_FORMAT_VERSION, RUN_MIGRATIONS } from '../../sim-core/drill/run-file-schema.ts';
import { decodeRunFile, encodeRunFile, verifyRunFile } from '../../sim-core/index.ts';

const version1 = readFileSync(path.join(import.meta.dirname, 'old-files', 'run-version-1.kerfrun'), 'utf8');

test('there is one named step from every version to the next', () => {
  expect(RUN_MIGRATIONS.map(({ from }) => from)).toEqual(Array.from({ length: RUN_FORMAT_VERSION - 1 }, (_, n) => n + 1));
});

test('rig-stood-ready: a version 1 run had no rig check, and its drill is lifted with it', () => {
  const read = decodeRunFile(version1);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { run } = read;
  expect(run).toMatchObject({ choices: null, diagnosis: null, coreVersion: '1.0.0', seed: 5, finished: true });
  expect(run.log.length).toBe(run.tickCount);
  expect(run.drill).toMatchObject({ id: 'guard-patch-straight-3', formatVersion: 2, rig: { nozzle: 'small', mode: 'cut' } });
  expect(JSON.parse(run.drillText), 'the drill itself is kept as it was written').toMatchObject({ formatVersion: 1 });
  expect(verifyRunFile(version1)).toMatchObject({ verdict: 'other-core', reason: expect.stringContaining('1.0.0') });
});

test('written again it is of the version of today, and reads the same', () => {
  const read = decodeRunFile(version1);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const again = decodeRunFile(encodeRunFile(read.run));
  expect(again).toEqual(read);
});
