import { describe, expect, test } from 'vitest';
import { leanBetweenDeg, leanRoomDeg, leanTarget } from '../../renderer/bench/lean-target.ts';
import { traceSpecs } from '../../renderer/review/trace-specs.ts';
import { type Drill, type DrillIntended, pathGeometry } from '../../sim-core/index.ts';

const upright: DrillIntended = {
  bevelDeg: 0,
  travelAngleDeg: null,
  speedMmPerS: null,
  grooveDepthMm: null,
  grooveWidthMm: null,
  passes: 1,
};
const line = (xMm: number, yMm: number) =>
  pathGeometry({ start: { xMm: 0, yMm: 0 }, segments: [{ kind: 'line', to: { xMm, yMm } }] });

describe('how the handle is to lean', () => {
  test('upright where nothing else is asked', () => {
    expect(leanTarget(line(50, 0), upright, 10)).toEqual({ leanXDeg: 0, leanYDeg: 0 });
  });

  test('a bevel leans to the left of travel when positive, whichever way the line runs', () => {
    const bevel = { ...upright, bevelDeg: 30 };
    const right = leanTarget(line(50, 0), bevel, 10);
    expect([right.leanXDeg, right.leanYDeg]).toEqual([expect.closeTo(0, 9), expect.closeTo(30, 9)]);
    const away = leanTarget(line(0, 50), bevel, 10);
    expect([away.leanXDeg, away.leanYDeg]).toEqual([expect.closeTo(-30, 9), expect.closeTo(0, 9)]);
    const left = leanTarget(line(-50, 0), { ...upright, bevelDeg: -30 }, 10);
    expect([left.leanXDeg, left.leanYDeg]).toEqual([expect.closeTo(0, 9), expect.closeTo(30, 9)]);
  });

  test('a groove is pushed: the handle leans back from the travel, to the middle of its band', () => {
    const groove = { ...upright, travelAngleDeg: { low: -50, high: -30 } };
    expect(leanTarget(line(50, 0), groove, 10).leanXDeg).toBeCloseTo(-40, 9);
    expect(leanRoomDeg(groove, 8)).toBe(10);
    expect(leanRoomDeg(upright, 8)).toBe(8);
  });
});

test('the angle between two leans is that between the two axes', () => {
  expect(leanBetweenDeg({ leanXDeg: 30, leanYDeg: 0 }, { leanXDeg: -15, leanYDeg: 0 })).toBeCloseTo(45, 9);
  expect(leanBetweenDeg({ leanXDeg: 12, leanYDeg: -7 }, { leanXDeg: 12, leanYDeg: -7 })).toBeCloseTo(0, 5);
  expect(leanBetweenDeg({ leanXDeg: 45, leanYDeg: 0 }, { leanXDeg: 0, leanYDeg: 45 })).toBeCloseTo(60, 9);
});

test('the traces of a run have the lean that the drill asks for as their band, and upright within their axis', () => {
  const drill = (intended: Partial<DrillIntended>) =>
    ({
      intended: { ...upright, ...intended },
      tolerances: { sparkAngleDeg: { low: 15, high: 30 }, standOffMm: { low: 0.8, high: 3 }, leanDeg: 8 },
    }) as unknown as Drill;
  const trace = (intended: Partial<DrillIntended>, name: 'travel' | 'work') =>
    traceSpecs(drill(intended), null).find((spec) => spec.name === name);
  expect(trace({}, 'work')).toMatchObject({ band: { low: -8, high: 8 }, span: [-16, 16] });
  expect(trace({ bevelDeg: 30 }, 'work')).toMatchObject({ band: { low: 22, high: 38 }, span: [-8, 46] });
  expect(trace({ travelAngleDeg: { low: -50, high: -30 } }, 'travel')).toMatchObject({
    band: { low: -50, high: -30 },
    span: [-58, 8],
  });
});
