// Other marks in the place of a run's own. Catches a total that is weighed anew instead of moved (another core rounded its own),
// one that leaves its scale, a pass in spite of a measure below what it must reach, and a mark that severs a plate.
import { expect, test } from 'vitest';
import { type MeasureScore, reasonsAfterOverruling, type Score, scoreAfterOverruling } from '../../sim-core/index.ts';

const measure = (id: MeasureScore['id'], mark: number, weight: number, mustReach: number | null = null): MeasureScore => {
  return { id, mark, weight, mustReach, band: null, evidence: [] };
};
const MEASURES = [measure('travel-speed', 50, 3, 60), measure('steadiness', 100, 1)];
const SCORE: Score = {
  score: 62.5,
  passed: false,
  reasons: [
    { kind: 'below-pass-mark', score: 62.5, passMark: 70 },
    { kind: 'measure-below', measureId: 'travel-speed', mark: 50, mustReach: 60 },
  ],
  measures: MEASURES,
  firstThingToChange: null,
};
const speed = (mark: number) => [{ measureId: 'travel-speed', mark }];

test('the score with other marks is moved by their weighted difference and stays within its scale', () => {
  expect(scoreAfterOverruling(SCORE, [])).toBe(62.5);
  expect(scoreAfterOverruling(SCORE, speed(70))).toBe(77.5);
  expect(scoreAfterOverruling({ ...SCORE, score: 20 }, speed(0))).toBe(0);
  expect(scoreAfterOverruling({ ...SCORE, score: 95 }, speed(100))).toBe(100);
  expect(scoreAfterOverruling(SCORE, [{ measureId: 'no-such', mark: 0 }])).toBe(62.5);
});

test('the pass rule is asked again with the other marks: the whole, and what a measure must reach', () => {
  expect(reasonsAfterOverruling(SCORE, [], 70)).toMatchObject([{ kind: 'below-pass-mark' }, { kind: 'measure-below', mark: 50 }]);
  expect(reasonsAfterOverruling(SCORE, speed(60), 70)).toEqual([]);
  expect(reasonsAfterOverruling(SCORE, speed(59.9), 60)).toEqual([
    { kind: 'measure-below', measureId: 'travel-speed', mark: 59.9, mustReach: 60 },
  ]);
  expect(reasonsAfterOverruling(SCORE, [...speed(60), { measureId: 'steadiness', mark: 0 }], 70)).toMatchObject([
    { kind: 'below-pass-mark', passMark: 70 },
  ]);
});

test('no mark severs a plate', () => {
  const uncut: Score = { ...SCORE, reasons: [{ kind: 'not-severed', uncutMm: 12 }, ...SCORE.reasons] };
  expect(reasonsAfterOverruling(uncut, speed(100), 70)).toEqual([{ kind: 'not-severed', uncutMm: 12 }]);
});

test('what was far off stands until that very measure is marked otherwise', () => {
  const farOff = { kind: 'far-off', measureId: 'travel-speed', share: 0.6 } as const;
  const off: Score = { ...SCORE, reasons: [farOff] };
  expect(reasonsAfterOverruling(off, [{ measureId: 'steadiness', mark: 100 }], 50)).toContainEqual(farOff);
  expect(reasonsAfterOverruling(off, speed(80), 70)).toEqual([]);
});
