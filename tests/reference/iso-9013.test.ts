// S6: ISO 9013:2017, tables 4 and 5: ranges of the perpendicularity tolerance u and of the mean profile height Rz5. The formulas
// were read in a secondary source only and agree with memory; the standard's own tables were not read. Catches a slipped
// coefficient, a range counted from the wrong end, and millimetres taken for micrometres.
import { expect, test } from 'vitest';
import { edgeReliefMm, rz5LimitUm, rz5RangeOf, uLimitMm, uRangeOf } from '../../sim-core/quality/iso-9013.ts';

/** Cut thickness, mm; limits of u, mm, ranges 1 to 5; limits of Rz5, micrometres, ranges 1 to 4. */
const TABLE: [number, number[], number[]][] = [
  [3, [0.059, 0.171, 0.43, 0.86, 1.305], [11.8, 42.4, 73.6, 115.4]],
  [6, [0.068, 0.192, 0.46, 0.92, 1.41], [13.6, 44.8, 77.2, 120.8]],
  [10, [0.08, 0.22, 0.5, 1.0, 1.55], [16, 48, 82, 128]],
  [12, [0.086, 0.234, 0.52, 1.04, 1.62], [17.2, 49.6, 84.4, 131.6]],
  [20, [0.11, 0.29, 0.6, 1.2, 1.9], [22, 56, 94, 146]],
  [25, [0.125, 0.325, 0.65, 1.3, 2.075], [25, 60, 100, 155]],
];

test.each(TABLE)('the limits at %d mm', (a, u, rz5) => {
  for (const [n, limit] of u.entries()) expect(uLimitMm(n + 1, a)).toBeCloseTo(limit, 10);
  for (const [n, limit] of rz5.entries()) expect(rz5LimitUm(n + 1, a)).toBeCloseTo(limit, 10);
});

test.each(TABLE)('a figure at a limit of %d mm is still in that range, one beyond it in the next', (a, u, rz5) => {
  for (const [n, limit] of u.entries()) {
    expect(uRangeOf(limit - 1e-9, a)).toBe(n + 1);
    expect(uRangeOf(limit + 1e-9, a)).toBe(n + 1 < u.length ? n + 2 : null);
  }
  for (const [n, limit] of rz5.entries()) {
    expect(rz5RangeOf(limit - 1e-9, a)).toBe(n + 1);
    expect(rz5RangeOf(limit + 1e-9, a)).toBe(n + 1 < rz5.length ? n + 2 : null);
  }
});

test('there is no range 0, no u range 6 and no Rz5 range 5', () => {
  expect(() => uLimitMm(0, 6)).toThrow(RangeError);
  expect(() => uLimitMm(6, 6)).toThrow(RangeError);
  expect(() => rz5LimitUm(5, 6)).toThrow('There is no range 5: 1 to 4 are there.');
});

test('what is left off at the top and at the bottom of a face (from memory of the standard)', () => {
  const relief: [number, number][] = [
    [1, 0.1],
    [3, 0.3],
    [3.01, 0.3],
    [6, 0.3],
    [6.01, 0.6],
    [10, 0.6],
    [10.01, 1],
    [20, 1],
    [20.01, 1.5],
    [40, 1.5],
    [41, 2],
  ];
  for (const [a, mm] of relief) expect(edgeReliefMm(a)).toBeCloseTo(mm, 10);
});
