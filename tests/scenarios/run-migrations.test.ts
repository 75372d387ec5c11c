// A run file of the first version, kept as core 1.0.0 wrote it: read whole, and told as another core's.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { RUN_FORMAT_VERSION, RUN_MIGRATIONS } from '../../sim-core/drill/run-file-schema.ts';
import { decodeRunFile, encodeRunFile, verifyRunFile } from '../../sim-core/index.ts';
import { SAMPLE_HAND_SCALE } from '../host/sample-hand.ts';

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

test('hand-not-measured: a run without a measured hand is written as before there was any, byte for byte', () => {
  const version2 = readFileSync(path.join(import.meta.dirname, 'old-files', 'run-version-2.kerfrun'), 'utf8');
  const read = decodeRunFile(version2);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(JSON.parse(version2.split('\n')[0] as string)).toMatchObject({ formatVersion: 2 });
  expect(read.run.handScale).toBeNull();
  expect(encodeRunFile(read.run)).toBe(version2);
});

test('a measured hand makes it version 3, is read back whole, and changes nothing of what is cut again', () => {
  const read = decodeRunFile(readFileSync(path.join(import.meta.dirname, 'old-files', 'run-version-2.kerfrun'), 'utf8'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const text = encodeRunFile({ ...read.run, handScale: SAMPLE_HAND_SCALE });
  expect(JSON.parse(text.split('\n')[0] as string)).toMatchObject({ formatVersion: 3, handScale: SAMPLE_HAND_SCALE });
  const again = decodeRunFile(text);
  expect(again.ok && again.run.handScale).toEqual(SAMPLE_HAND_SCALE);
  expect(verifyRunFile(text).verdict).toBe(verifyRunFile(encodeRunFile(read.run)).verdict);
  const wrong = { ...SAMPLE_HAND_SCALE, pxPerMm: -1 };
  expect(decodeRunFile(encodeRunFile({ ...read.run, handScale: wrong })).ok).toBe(false);
});
