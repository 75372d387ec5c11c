import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { asksSpeedGuess, marksAreSealed, speedTruth } from '../../renderer/bench/speed-guess.ts';
import { type Drill, type Evidence, type MeasureScore, parseDrill } from '../../sim-core/index.ts';

function shipped(id: string): Drill {
  const result = parseDrill(readFileSync(join(import.meta.dirname, '..', '..', 'scenarios', `${id}.json`), 'utf8'));
  if (!result.ok) throw new Error(`${id} cannot be read`);
  return result.value;
}

const speed = (mark: number, ...lost: [Evidence['fault'], number][]) => ({
  measures: [
    {
      id: 'travel-speed',
      mark,
      evidence: lost.map(([fault, lostMarks]) => ({ fault, lostMarks }) as Evidence),
    } as MeasureScore,
  ],
});

describe('what the speed was', () => {
  test('is what cost the most marks, and right where few were lost', () => {
    expect(speedTruth(speed(95, ['travel-speed.too-fast', 5]))).toBe('right');
    expect(speedTruth(speed(40, ['travel-speed.too-fast', 40], ['travel-speed.too-slow', 20]))).toBe('too-fast');
    expect(speedTruth(speed(40, ['travel-speed.too-fast', 10], ['travel-speed.too-slow', 50]))).toBe('too-slow');
  });

  test('is not known where it was not marked, or nothing shows which way it was', () => {
    expect(speedTruth({ measures: [] })).toBeNull();
    expect(speedTruth(speed(0))).toBeNull();
  });
});

test('the question is asked where speed is marked, and not where the fault of the rig is asked for', () => {
  expect(asksSpeedGuess(shipped('hanger-tab-straight-6'))).toBe(true);
  expect(asksSpeedGuess(shipped('what-is-wrong-first-6'))).toBe(false);
  expect(marksAreSealed(shipped('assessment-lifting-eye-10'))).toBe(true);
  expect(marksAreSealed(shipped('what-is-wrong-first-6'))).toBe(false);
  expect(marksAreSealed(shipped('hanger-tab-straight-6'))).toBe(false);
});
