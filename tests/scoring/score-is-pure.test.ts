// The score is a function of drill, samples and context alone: the same again, nothing changed on the way, and quick.
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import process from 'node:process';
import { expect, test } from 'vitest';
import { scoreRun } from '../../sim-core/index.ts';
import { contextOf, samplesOf } from './hand-made-runs.ts';
import { CURVED_DRILL, WANDERING_MINUTE } from './wandering-minute.ts';

const drill = CURVED_DRILL;
const minute = WANDERING_MINUTE;
const context = contextOf(drill, { ...minute, isOpen: (x) => x > 20 });

test('scored twice, a run has the same score, and its samples are as they were', () => {
  const samples = samplesOf(drill, minute);
  const before = structuredClone(samples);
  const first = scoreRun(drill, samples, context);
  expect(scoreRun(drill, samples, context)).toEqual(first);
  expect(samples).toEqual(before);
  expect(JSON.parse(JSON.stringify(first))).toEqual(first);
});

test('a minute of hand work is scored within 30 ms of processor time', () => {
  const timer = path.join(import.meta.dirname, 'time-scoring.ts');
  const printed = execFileSync(process.execPath, ['--disable-warning=ExperimentalWarning', timer], { encoding: 'utf8' });
  expect(Number(printed)).toBeGreaterThan(0);
  expect(Number(printed)).toBeLessThan(30);
});
