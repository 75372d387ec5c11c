import { describe, expect, test } from 'vitest';
import { createCutTrail, TRAIL_STEP_MM, type TrailSample } from '../../renderer/scene/cut-trail.ts';
import { createDragMarks, DRAG_HIGH_MM, markDrag, WAY_MM } from '../../renderer/scene/drag-marks.ts';
import { spatterCount } from '../../renderer/scene/torch-spatter.ts';
import { ARC_STATES } from '../../sim-core/index.ts';

const cutting: TrailSample = {
  xMm: 0,
  yMm: 30,
  headingRad: 0,
  speedMmPerS: 12,
  arcState: ARC_STATES.indexOf('transferred'),
  travelAngleDeg: 0,
  sparkAngleDeg: 22,
  throughFraction: 0.1,
  underMm3PerS: 120,
  topMm3PerS: 0,
};

function trailOf(change: Partial<TrailSample>) {
  const trail = createCutTrail(6);
  for (let n = 0; n <= 200; n += 1) trail.take(n, { ...cutting, ...change, xMm: n * 0.1 });
  return trail.places;
}

describe('what a cut leaves behind', () => {
  test('a place each half millimetre while the arc is on the metal, none without it', () => {
    const places = trailOf({});
    expect(places.length).toBeGreaterThan(30);
    expect(places.length).toBeLessThanOrEqual(20 / TRAIL_STEP_MM + 1);
    expect((places.at(-1)?.sMm ?? 0) - (places[0]?.sMm ?? 0)).toBeCloseTo((places.at(-1)?.xMm ?? 0) - (places[0]?.xMm ?? 0), 6);
    expect(trailOf({ arcState: 0 })).toHaveLength(0);
  });

  test('sparks that trail farther leave lines that lag farther', () => {
    expect(trailOf({ sparkAngleDeg: 35 })[5]?.dragMm).toBeGreaterThan((trailOf({ sparkAngleDeg: 15 })[5]?.dragMm ?? 0) + 0.5);
  });

  test('a good cut leaves no dross, a slow one a thick bead below, a lost one spatter on top', () => {
    expect(trailOf({})[5]?.drossKind).toBe('none');
    const slow = trailOf({ sparkAngleDeg: 3, throughFraction: 0.5, speedMmPerS: 4 })[5];
    expect(slow?.drossKind).toBe('low-speed');
    expect(slow?.drossMm).toBeGreaterThan(0.2);
    expect(trailOf({ underMm3PerS: 0, topMm3PerS: 120, sparkAngleDeg: Number.NaN })[5]?.drossKind).toBe('top-spatter');
  });

  test('the plate keeps direction, drag and way of each texel that the cut passed, and nothing elsewhere', () => {
    const marks = createDragMarks(60, 60);
    for (const place of trailOf({ yMm: 30 })) markDrag(marks, place);
    const { data, width } = marks.image as { data: Uint8Array; width: number };
    const texel = (x: number, y: number) => data.subarray((y * width + x) * 4, (y * width + x) * 4 + 4);
    const [r, g, b, a] = texel(10, 30) as unknown as [number, number, number, number];
    expect(r).toBe(255);
    expect(g).toBe(128);
    expect(((b - 1) / 254) * DRAG_HIGH_MM).toBeCloseTo(trailOf({})[5]?.dragMm ?? 0, 1);
    const next = texel(11, 30)[3] as number;
    // One millimetre farther along the cut, in the picture's own steps.
    expect(Math.abs((((next - a + 256) % 256) / 256) * WAY_MM - 1)).toBeLessThan(0.1);
    expect(Array.from(texel(10, 45))).toEqual([0, 0, 0, 0]);
  });

  test('a torch that nothing was thrown at is clean; a pierce straight down leaves it full', () => {
    expect(spatterCount(Number.NaN)).toBe(0);
    expect(spatterCount(1000)).toBe(0);
    // Doses of the reference hand and of an upright pierce in 12 mm.
    expect(spatterCount(115_828)).toBeLessThan(10);
    expect(spatterCount(832_950)).toBeGreaterThan(40);
  });
});
