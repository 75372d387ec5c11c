import { describe, expect, test } from 'vitest';
import { createPace } from '../../renderer/bench/pace.ts';

const LENGTH_MM = 200;
const LOOK_S = 0.025;
/** A hand follows what the eye sees by so much behind, s; a figure for tests, no measurement. */
const BEHIND_S = 0.25;

/** Millimetres a second of a hand that follows the mark, once it is on its way. */
function followed(speedMmPerS: number, step = 'move'): number {
  const pace = createPace(speedMmPerS, LENGTH_MM);
  let handMm = 0;
  let fromMm = 0;
  for (let n = 0; n <= 120; n += 1) {
    const markMm = pace.at(step, n * LOOK_S, handMm);
    if (markMm !== null) handMm += ((markMm - handMm) * LOOK_S) / BEHIND_S;
    if (n === 60) fromMm = handMm;
  }
  return (handMm - fromMm) / (60 * LOOK_S);
}

describe('the mark that keeps the pace', () => {
  test.each([3, 12, 34])('a hand that follows it goes at %d mm/s, whether that is slow or fast', (speedMmPerS) => {
    expect(followed(speedMmPerS)).toBeGreaterThan(0.95 * speedMmPerS);
    expect(followed(speedMmPerS)).toBeLessThan(1.05 * speedMmPerS);
  });

  test('it goes on over an opening, where the arc is out for a moment', () => {
    const pace = createPace(10, LENGTH_MM);
    pace.at('move', 0, 20);
    const before = pace.at('move', 0.1, 20) ?? Number.NaN;
    expect(pace.at('cross-gap', 0.2, 20)).toBeCloseTo(before + 1, 9);
  });

  test('it waits for a hand that stands, is back where a lost cut has to be taken up, and is gone before the arc', () => {
    const pace = createPace(10, LENGTH_MM);
    expect(pace.at('strike', 0, 0)).toBeNull();
    for (let n = 1; n < 50; n += 1) pace.at('move', n * 0.1, 20);
    expect(pace.at('move', 5, 20)).toBe(24);
    expect(pace.at('cut-lost', 5.1, 25)).toBe(14);
    expect(pace.at('arc-out', 5.2, 25)).toBe(14);
  });

  test('it goes past the end no farther than a hand has to', () => {
    const pace = createPace(10, LENGTH_MM);
    for (let n = 0; n < 50; n += 1) pace.at('move', n * 0.1, LENGTH_MM + 5);
    expect(pace.at('finish', 5, LENGTH_MM + 5)).toBe(LENGTH_MM + 6);
  });
});
