// The score is a function of drill, samples and context alone: the same again, and nothing changed on the way.
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
