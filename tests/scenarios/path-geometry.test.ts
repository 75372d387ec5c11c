// Lines and arcs against plain geometry, recomputed here with the language's own functions.
import { describe, expect, test } from 'vitest';
import { pathGeometry } from '../../sim-core/index.ts';

const quarter = pathGeometry({
  start: { xMm: 70, yMm: 0 },
  segments: [{ kind: 'arc', centre: { xMm: 0, yMm: 0 }, sweepDeg: 90 }],
});
const corner = pathGeometry({
  start: { xMm: 0, yMm: 40 },
  segments: [
    { kind: 'line', to: { xMm: 50, yMm: 40 } },
    { kind: 'arc', centre: { xMm: 50, yMm: 15 }, sweepDeg: -90 },
    { kind: 'line', to: { xMm: 75, yMm: 0 } },
  ],
});

describe('an arc', () => {
  test('has the length and the places of its circle', () => {
    expect(quarter.lengthMm).toBeCloseTo((70 * Math.PI) / 2, 10);
    for (const share of [0, 0.25, 0.5, 0.99, 1]) {
      const place = quarter.pointAt(share * quarter.lengthMm);
      const angle = (share * Math.PI) / 2;
      expect(place.xMm).toBeCloseTo(70 * Math.cos(angle), 9);
      expect(place.yMm).toBeCloseTo(70 * Math.sin(angle), 9);
      expect(place.headingRad).toBeCloseTo(angle + Math.PI / 2, 9);
    }
  });

  test('knows how far a point lies beside it, left of the cut positive', () => {
    const inside = quarter.nearest(60 * Math.cos(0.5), 60 * Math.sin(0.5));
    expect(inside.sMm).toBeCloseTo(35, 9);
    expect(inside.offsetMm).toBeCloseTo(10, 9);
    expect(quarter.nearest(75 * Math.cos(1), 75 * Math.sin(1)).offsetMm).toBeCloseTo(-5, 9);
  });

  test('turning clockwise heads the other way round', () => {
    const place = corner.pointAt(50 + (25 * Math.PI) / 4);
    expect(place.xMm).toBeCloseTo(50 + 25 * Math.SQRT1_2, 9);
    expect(place.yMm).toBeCloseTo(15 + 25 * Math.SQRT1_2, 9);
    expect(place.headingRad).toBeCloseTo(-Math.PI / 4, 9);
  });
});

describe('a path', () => {
  test('joins its segments without a gap and says where', () => {
    expect(corner.jointsMm).toEqual([50, expect.closeTo(50 + 12.5 * Math.PI, 9)]);
    for (const joint of corner.jointsMm) {
      const before = corner.pointAt(joint - 1e-7);
      const after = corner.pointAt(joint + 1e-7);
      expect(Math.hypot(after.xMm - before.xMm, after.yMm - before.yMm)).toBeLessThan(1e-6);
    }
  });

  test('goes on along its tangents beyond both ends', () => {
    expect(corner.pointAt(-5)).toMatchObject({ xMm: -5, yMm: 40 });
    const past = corner.pointAt(corner.lengthMm + 4);
    expect(past.xMm).toBeCloseTo(75, 9);
    expect(past.yMm).toBeCloseTo(-4, 9);
    expect(corner.nearest(-5, 42)).toMatchObject({ sMm: 0, beyondMm: -5, offsetMm: 2 });
    expect(corner.nearest(74, -4)).toMatchObject({ sMm: corner.lengthMm, beyondMm: 4, offsetMm: -1 });
  });

  test('finds the nearest place that a fine search finds', () => {
    for (const [x, y] of [
      [10, 44],
      [60, 38],
      [70, 30],
      [55, 20],
      [80, 5],
      [20, -10],
    ] as const) {
      let best = Number.POSITIVE_INFINITY;
      for (let s = 0; s <= corner.lengthMm; s += 0.01) {
        const place = corner.pointAt(s);
        best = Math.min(best, Math.hypot(x - place.xMm, y - place.yMm));
      }
      const foot = corner.nearest(x, y);
      expect(Math.hypot(foot.offsetMm, foot.beyondMm), `${x}, ${y}`).toBeCloseTo(best, 2);
    }
  });

  test('can be searched near a place only, so that a line that comes back on itself is not mixed up', () => {
    const hairpin = pathGeometry({
      start: { xMm: 0, yMm: 0 },
      segments: [
        { kind: 'line', to: { xMm: 50, yMm: 0 } },
        { kind: 'arc', centre: { xMm: 50, yMm: 2 }, sweepDeg: 180 },
        { kind: 'line', to: { xMm: 0, yMm: 4 } },
      ],
    });
    expect(hairpin.nearest(20, 2.5).sMm).toBeGreaterThan(50);
    expect(hairpin.nearest(20, 2.5, 18, 8).sMm).toBeCloseTo(20, 9);
  });

  test('of a segment without length is refused', () => {
    const segments = [{ kind: 'line' as const, to: { xMm: 1, yMm: 1 } }];
    expect(() => pathGeometry({ start: { xMm: 1, yMm: 1 }, segments })).toThrow(/Segment 1/);
  });
});
