// Agreement between judges against published tables. Published figures are given to two places, so they are held to half a unit of
// the second place; the exact ones are the published formulas worked out by hand in whole 360ths: between targets 4047, within 2255,
// between judges 11695, residual 367.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { biasAndLimits } from '../../electron/host/agreement/bias-and-limits.ts';
import { cohensKappa } from '../../electron/host/agreement/cohens-kappa.ts';
import { compareAssessors, type Judgement } from '../../electron/host/agreement/compare-assessors.ts';
import { intraclassCorrelation } from '../../electron/host/agreement/intraclass-correlation.ts';

/** Shrout and Fleiss, Psychological Bulletin 86 (1979) 420-428, Table 2: six targets, four judges. */
const TABLE_2 = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

describe("Cohen's kappa", () => {
  const times = (count: number, value: string) => Array.from({ length: count }, () => value);

  test('of the well-known table of fifty: both yes 20, yes and no 5, no and yes 10, both no 15', () => {
    const first = [...times(25, 'yes'), ...times(25, 'no')];
    const second = [...times(20, 'yes'), ...times(5, 'no'), ...times(10, 'yes'), ...times(15, 'no')];
    const { observed, expected, kappa, cases } = cohensKappa(first, second);
    expect(cases).toBe(50);
    expect(observed).toBeCloseTo(0.7, 12);
    expect(expected).toBeCloseTo(0.5, 12);
    expect(kappa).toBeCloseTo(0.4, 12);
  });
  test('is 1 where both say the same of two kinds, -1 where they always cross, and has no value with one kind', () => {
    expect(cohensKappa(['a', 'b'], ['a', 'b']).kappa).toBe(1);
    expect(cohensKappa(['a', 'b'], ['b', 'a']).kappa).toBe(-1);
    expect(cohensKappa(times(7, 'a'), times(7, 'a')).kappa).toBeNull();
    expect(cohensKappa(['a', 'a'], ['b', 'b']).kappa).toBe(0);
  });
  test('does not depend on who is first or on the order of the cases', () => {
    const category = fc.constantFrom('a', 'b', 'c');
    const cases = fc.array(fc.tuple(category, category), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(cases, (pairs) => {
        const one = pairs.map(([first]) => first);
        const other = pairs.map(([, second]) => second);
        const straight = cohensKappa(one, other);
        expect(cohensKappa(other, one)).toEqual(straight);
        expect(cohensKappa(one.toReversed(), other.toReversed())).toEqual(straight);
      }),
      { seed: 20_260_113 },
    );
  });
  test('refuses nothing to judge, and unlike numbers of cases', () => {
    expect(() => cohensKappa([], [])).toThrow('at least one case');
    expect(() => cohensKappa(['a'], ['a', 'b'])).toThrow('1 cases and the second 2');
  });
});

describe('intraclass correlations of Shrout and Fleiss, Table 2', () => {
  const result = intraclassCorrelation(TABLE_2);

  test.each([
    ['betweenTargets', 11.241667],
    ['withinTargets', 6.263889],
    ['betweenJudges', 32.486111],
    ['residual', 1.019444],
  ] as const)('mean square %s', (name, value) => {
    expect(Math.abs(result[name] - value)).toBeLessThan(5e-7);
  });
  test.each([
    ['icc11', 0.17, 1792 / 10812],
    ['icc21', 0.29, 3680 / 12700],
    ['icc31', 0.71, 3680 / 5148],
    ['icc1k', 0.44, 1792 / 4047],
    ['icc2k', 0.62, 3680 / 5935],
    ['icc3k', 0.91, 3680 / 4047],
  ] as const)('%s', (name, published, exact) => {
    expect(Math.abs((result[name] ?? Number.NaN) - published)).toBeLessThanOrEqual(0.005);
    expect(Math.abs((result[name] ?? Number.NaN) - exact)).toBeLessThan(1e-12);
  });
  test('a judge who is always two marks harder costs absolute agreement and not consistency', () => {
    const biased = intraclassCorrelation([50, 60, 70, 90].map((mark) => [mark, mark - 2]));
    expect(biased.icc31).toBeCloseTo(1, 12);
    expect(biased.icc21).toBeLessThan(1);
    expect(biased.icc21).toBeGreaterThan(0.98);
  });
  test('has no value where all marks are the same, and is 1 where the judges are of one mind', () => {
    expect(
      intraclassCorrelation([
        [5, 5],
        [5, 5],
      ]).icc21,
    ).toBeNull();
    expect(
      intraclassCorrelation([
        [1, 1],
        [7, 7],
      ]).icc21,
    ).toBe(1);
  });
  test('refuses too few, gaps and what is no number', () => {
    expect(() => intraclassCorrelation([[1, 2]])).toThrow('two runs and two judges');
    expect(() => intraclassCorrelation([[1], [2]])).toThrow('two runs and two judges');
    expect(() => intraclassCorrelation([[1, 2], [3]])).toThrow('Run 2 has 1 marks');
    expect(() =>
      intraclassCorrelation([
        [1, 2],
        [3, Number.NaN],
      ]),
    ).toThrow('Run 2 has a mark that is no number');
  });
});

test('bias and limits of agreement, worked by hand: differences 1, 2, 3, deviation 1', () => {
  const limits = biasAndLimits([
    [11, 10],
    [22, 20],
    [33, 30],
  ]);
  expect(limits).toEqual({ pairs: 3, bias: 2, deviation: 1, lower: 2 - 1.96, upper: 2 + 1.96 });
  expect(biasAndLimits([[4, 7]])).toEqual({ pairs: 1, bias: -3, deviation: null, lower: null, upper: null });
  expect(() => biasAndLimits([])).toThrow('at least one run');
});

describe('two assessors on one set', () => {
  const judgement = (runId: string, decision: Judgement['decision'], score: number, stand = score): Judgement => {
    return {
      runId,
      decision,
      score,
      marks: [
        { measureId: 'severance', mark: 100 },
        { measureId: 'stand-off', mark: stand },
      ],
    };
  };
  const first = [
    judgement('a', 'competent', 90),
    judgement('b', 'not-yet-competent', 60),
    judgement('c', 'competent', 85),
    judgement('d', 'competent', 70),
  ];
  const second = [
    judgement('d', 'not-yet-competent', 66),
    judgement('a', 'competent', 90),
    judgement('b', 'not-yet-competent', 50),
  ];

  test('counts what both judged, and lists the runs on which they differ, decisions first', () => {
    const comparison = compareAssessors(first, second);
    expect(comparison).toMatchObject({ runs: 3, onlyFirst: 1, onlySecond: 0 });
    expect(comparison.decisions?.observed).toBeCloseTo(2 / 3, 12);
    expect(comparison.scores?.icc21).toBeCloseTo(
      intraclassCorrelation([
        [90, 90],
        [60, 50],
        [70, 66],
      ]).icc21 ?? Number.NaN,
      12,
    );
    expect(comparison.scoreBias?.bias).toBeCloseTo(14 / 3, 12);
    expect(comparison.differences.map(({ runId, scoreDifference }) => [runId, scoreDifference])).toEqual([
      ['d', 4],
      ['b', 10],
    ]);
    expect(comparison.differences[0].measures).toEqual([{ measureId: 'stand-off', firstMark: 70, secondMark: 66 }]);
  });
  test('says that there is nothing to compare, and refuses a run judged twice', () => {
    expect(compareAssessors(first, [])).toMatchObject({ runs: 0, onlyFirst: 4, decisions: null, scores: null, scoreBias: null });
    expect(compareAssessors(first, [judgement('a', 'competent', 90)])).toMatchObject({ runs: 1, scores: null });
    expect(() => compareAssessors([...first, first[0]], second)).toThrow('first assessor judged the run a twice');
  });
});
