// The score is a function of drill, samples and context alone: the same again, nothing changed on the way, and quick.
import { expect, test } from 'vitest';
import { scoreRun } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';
import { goodRun, samplesOf, WINDOW } from './hand-made-runs.ts';

const drill = shippedDrill('keel-saddle-curve-6');
const length = (75 * Math.PI) / 2;
const minute = {
  ...goodRun(length),
  seconds: 60,
  alongMm: (t: number) => Math.max(0, (t - 1) * 2.1),
  offsetMm: (t: number) => 2 * Math.sin(t),
  arcOn: () => true,
};
const context = { window: WINDOW, isOpenAlongAxis: (x: number) => x > 20 };

test('scored twice, a run has the same score, and its samples are as they were', () => {
  const samples = samplesOf(drill, minute);
  const before = structuredClone(samples);
  const first = scoreRun(drill, samples, context);
  expect(scoreRun(drill, samples, context)).toEqual(first);
  expect(samples).toEqual(before);
  expect(JSON.parse(JSON.stringify(first))).toEqual(first);
});

test('a minute of hand work is scored within 30 ms', () => {
  const samples = samplesOf(drill, minute);
  let quickest = Number.POSITIVE_INFINITY;
  // The quickest of several: a busy machine makes single ones long, never short.
  for (let i = 0; i < 12; i++) {
    const began = performance.now();
    scoreRun(drill, samples, context);
    quickest = Math.min(quickest, performance.now() - began);
  }
  expect(quickest).toBeLessThan(30);
});
