import { describe, expect, test } from 'vitest';
import {
  alongPlace,
  alongTime,
  commonAxis,
  onAxis,
  rowAt,
  type TracedRun,
  tickOfRow,
} from '../../renderer/verdict/align-runs.ts';
import { ARC_STATES, type Drill, TICK_HZ } from '../../sim-core/index.ts';

const HZ = 30;
const ON = ARC_STATES.indexOf('transferred');
const OFF = ARC_STATES.indexOf('off');
const LINE = {
  path: { start: { xMm: 0, yMm: 50 }, segments: [{ kind: 'line', to: { xMm: 100, yMm: 50 } }] },
} as unknown as Drill;

/** A run that waits, then goes through these places along the line; each a row of the trace. */
function through(places: readonly number[], waitsRows: number): TracedRun {
  const xs = [...Array.from({ length: waitsRows }, () => places[0] ?? 0), ...places];
  return {
    hz: HZ,
    columns: {
      xMm: Float32Array.from(xs),
      yMm: Float32Array.from(xs, () => 50.4),
      arcState: Float32Array.from(xs, (_, row) => (row < waitsRows ? OFF : ON)),
      speedMmPerS: Float32Array.from(xs),
    },
  };
}

describe('two runs laid over each other', () => {
  test('by place the same place is found however long the hand took to it', () => {
    const slow = through([0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20], 9);
    const quick = through([0, 10, 20], 2);
    const a = alongPlace(slow, LINE);
    const b = alongPlace(quick, LINE);
    expect(rowAt(a, 10)).toBe(9 + 5);
    expect(rowAt(b, 10)).toBe(2 + 1);
    expect(slow.columns.xMm?.[rowAt(a, 20) as number]).toBe(20);
    expect(quick.columns.xMm?.[rowAt(b, 20) as number]).toBe(20);
  });

  test('by time zero is the moment at which each arc reached the metal', () => {
    const late = alongTime(through([0, 1, 2, 3], 30));
    const early = alongTime(through([0, 1, 2, 3], 3));
    expect(rowAt(late, 0)).toBe(30);
    expect(rowAt(early, 0)).toBe(3);
    expect(rowAt(late, 2 / HZ)).toBe(32);
    expect(late.at[0]).toBeCloseTo(-1, 9);
  });

  test('a hand that goes back is read again only where it comes on', () => {
    const back = through([0, 5, 10, 8, 6, 9, 12, 15], 0);
    const along = alongPlace(back, LINE);
    expect([...along.at]).toEqual([0, 5, 10, 12, 15]);
    expect([...along.rows]).toEqual([0, 1, 2, 6, 7]);
  });

  test('where a run never was there is no figure, and nothing is made up', () => {
    const short = through([0, 10, 20], 0);
    const long = through([0, 12, 24, 36, 48, 60], 0);
    const runs = [alongPlace(short, LINE), alongPlace(long, LINE)] as const;
    const axis = commonAxis(runs, 10);
    expect([...axis]).toEqual([0, 10, 20, 30, 40, 50, 60]);
    expect(onAxis(axis, runs[0], short.columns.xMm as Float32Array, 1).slice(3)).toEqual([null, null, null, null]);
    expect(onAxis(axis, runs[1], long.columns.xMm as Float32Array, 2)[6]).toBe(120);
    expect(rowAt(runs[0], 20.1)).toBeNull();
  });

  test('where the arc was out the hand is followed, and the run is read again from where it was struck', () => {
    const gap = through([0, 5, 10, 20, 30, 40, 45, 50], 0);
    for (const row of [3, 4]) (gap.columns.arcState as Float32Array)[row] = OFF;
    const along = alongPlace(gap, LINE);
    expect([...along.at]).toEqual([0, 5, 10, 40, 45, 50]);
    expect([...along.rows]).toEqual([0, 1, 2, 5, 6, 7]);
  });

  test('a run whose arc never reached the metal has no place at all', () => {
    const cold = through([0, 10], 0);
    cold.columns.arcState?.fill(OFF);
    expect(alongPlace(cold, LINE).at.length).toBe(0);
    expect(commonAxis([alongPlace(cold, LINE)], 1).length).toBe(0);
  });

  test('a row of the trace stands for the tick at which it was taken', () => {
    expect(tickOfRow(0, HZ)).toBe(TICK_HZ / HZ);
    expect(tickOfRow(29, HZ)).toBe(TICK_HZ);
  });
});
