// The fit of the practice curve: the laws of practice with known figures come out of their own scores, exactly without scatter and
// within its statistical error with it.
import { describe, expect, test } from 'vitest';
import { fitPracticeCurve, practiceScore } from '../../renderer/register/practice-curve.ts';
import { nextNormal } from '../../sim-core/math/random.ts';

const LEARNERS = [
  { law: 'exponential', level: 92, lacking: 60, rate: 0.12 },
  { law: 'exponential', level: 80, lacking: 35, rate: 0.3 },
  { law: 'power', level: 95, lacking: 70, rate: 0.6 },
  { law: 'power', level: 90, lacking: 50, rate: 1.2 },
] as const;

const scoresOf = (learner: (typeof LEARNERS)[number], runs: number): number[] =>
  Array.from({ length: runs }, (_, at) => practiceScore(learner, at + 1));

test('the power law as published: T = 1 + 9 N^-0.4 (Newell and Rosenbloom 1981): 10, 4.582965 and 2.426404 at run 1, 10 and 100', () => {
  // Times fall where scores rise: the score is what is left of 100.
  const curve = { law: 'power', level: 99, lacking: 9, rate: 0.4 } as const;
  for (const [run, time] of [
    [1, 10],
    [10, 4.582965],
    [100, 2.426404],
  ]) {
    expect(100 - practiceScore(curve, run)).toBeCloseTo(time, 6);
  }
});

describe.each(LEARNERS)('$law, level $level, rate $rate', (learner) => {
  test('is found again from scores without scatter', () => {
    const found = fitPracticeCurve(scoresOf(learner, 30));
    expect(found?.law).toBe(learner.law);
    expect(found?.level).toBeCloseTo(learner.level, 3);
    expect(found?.lacking).toBeCloseTo(learner.lacking, 3);
    expect(found?.rate).toBeCloseTo(learner.rate, 5);
    expect(found?.scatter).toBeLessThan(1e-4);
  });

  test('with a scatter of 4 marks its scores are found again within the error of a mean', () => {
    const random = { counter: 7 };
    const runs = 40;
    const scores = scoresOf(learner, runs).map((score) => Math.min(100, score + 4 * nextNormal(random)));
    const found = fitPracticeCurve(scores);
    if (!found) throw new Error('No curve.');
    // Three figures from forty scores: the curve's own error is about 4 * sqrt(3 / 40) = 1.1 marks root mean square; three times that.
    const off = scores.map((_, at) => practiceScore(found, at + 1) - practiceScore(learner, at + 1));
    expect(Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / runs)).toBeLessThan(3.3);
    expect(found.scatter).toBeLessThan(6);
  });
});

test('too few runs are no curve, and equal scores are a level', () => {
  expect(fitPracticeCurve([10, 20, 30, 40, 50, 60, 70])).toBeNull();
  expect(fitPracticeCurve(Array.from({ length: 12 }, () => 70))).toMatchObject({ level: 70, lacking: 0, scatter: 0 });
});

test('a level is never above the best score there is, nor a lack below none', () => {
  const straight = fitPracticeCurve(Array.from({ length: 20 }, (_, at) => 5 * at));
  expect(straight?.level).toBeLessThanOrEqual(100);
  const worse = fitPracticeCurve(Array.from({ length: 20 }, (_, at) => 90 - at));
  expect(worse?.lacking).toBe(0);
});
