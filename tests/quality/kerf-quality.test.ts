// Figures read from a kerf whose faces are known exactly. Catches a face taken on the wrong side, a bevel judged as a slant, the
// relief of the standard forgotten, a hand off the line taken for uncut metal, and metal left at an end not told.
import { expect, test } from 'vitest';
import { pathGeometry } from '../../sim-core/drill/path-geometry.ts';
import { dragFromSparkMm } from '../../sim-core/quality/drag-line.ts';
import { kerfQuality } from '../../sim-core/quality/kerf-quality.ts';
import { qualityRows } from '../../sim-core/quality/quality-summary.ts';
import { MADE_LINE_MM, type MadeKerf, madeMetal, madeSamples } from './made-cut.ts';

const line = pathGeometry({ start: { xMm: 0, yMm: 0 }, segments: [{ kind: 'line', to: { xMm: MADE_LINE_MM, yMm: 0 } }] });
const STEEL_6 = { material: 'mild-steel', thicknessMm: 6 } as const;

/** A kerf narrowing from top to bottom on the left only. */
const tapered: MadeKerf = (_, depth) => ({ left: 1.1 - 0.1 * depth, right: -1.1 });

test('widths, squareness of each face and its range, from faces that are known', () => {
  const { perMm, summary } = kerfQuality(madeMetal(6, tapered), line, madeSamples(line), STEEL_6);
  expect(perMm).toHaveLength(60);
  for (const place of perMm) {
    expect(place.state).toBe('cut');
    expect(place.topWidthMm).toBeCloseTo(2.2 - 0.1 * 0.25, 2);
    expect(place.bottomWidthMm).toBeCloseTo(2.2 - 0.1 * 5.75, 2);
    // 0.3 mm is left off at either end; the layers between have their middles from 0.75 to 5.25 mm.
    expect(place.uLeftMm).toBeCloseTo(0.45, 2);
    expect(place.uRightMm).toBeCloseTo(0, 2);
    expect(place.uMm).toBe(place.uLeftMm);
    expect(place.uRange).toBe(3);
    expect(place.depthMm).toBeCloseTo(6, 6);
  }
  expect(summary.uncutMm).toBe(0);
  expect(summary.metalMm).toBeCloseTo(60, 6);
  expect(summary.start).toEqual({ kind: 'none', mm: 0 });
  expect(summary.end).toEqual({ kind: 'none', mm: 0 });
});

/** Both faces go to the right with depth, as under a handle leaned 30 deg to the left. */
const slanted: MadeKerf = (_, depth) => {
  const middle = -Math.tan(Math.PI / 6) * depth;
  return { left: middle + 1, right: middle - 1 };
};

test('a bevel that was meant is square to its own angle; the same faces are a bad square cut', () => {
  const leaned = madeSamples(line, (sample) => {
    sample.workAngleDeg = 30;
    // The tip is beside the line by what the lean carries the axis over the stand-off.
    sample.yMm += 1.5 * Math.tan(Math.PI / 6);
  });
  const metal = madeMetal(6, slanted);
  const meant = kerfQuality(metal, line, leaned, { ...STEEL_6, bevelDeg: 30 });
  const unmeant = kerfQuality(metal, line, leaned, STEEL_6);
  for (const place of meant.perMm) {
    expect(place.state).toBe('cut');
    expect(place.uMm).toBeLessThan(0.02);
    expect(place.uRange).toBe(1);
  }
  expect(unmeant.summary.uMm).toBeCloseTo(Math.tan(Math.PI / 6) * 4.5, 1);
  expect(unmeant.summary.uRange).toBe(null);
});

test('a hand 2 mm beside the line still has its kerf found, and the place is told where it lies', () => {
  const beside: MadeKerf = () => ({ left: 3, right: 1 });
  const samples = madeSamples(line, (sample) => {
    sample.yMm += 2;
  });
  const { perMm } = kerfQuality(madeMetal(6, beside), line, samples, STEEL_6);
  for (const place of perMm) {
    expect(place.state).toBe('cut');
    expect(place.yMm).toBeCloseTo(2, 6);
    expect(place.topWidthMm).toBeCloseTo(2, 2);
  }
});

test('a wedge left at the start, a tab at the end and metal that was never reached are told in mm', () => {
  const withEnds: MadeKerf = (x, depth) => {
    if (x > 55) return null;
    const closed = (x < 3.6 && depth > 3) || (x > 52 && depth > 5);
    return closed ? null : { left: 1, right: -1 };
  };
  const samples = madeSamples(line, (sample, s) => {
    if (s > 55) sample.arcState = 0;
  });
  const { perMm, summary } = kerfQuality(madeMetal(6, withEnds), line, samples, STEEL_6);
  expect(perMm.slice(0, 4).map((place) => place.state)).toEqual(['uncut', 'uncut', 'uncut', 'uncut']);
  expect(perMm[0]?.depthMm).toBeCloseTo(3, 6);
  expect(perMm[0]?.uMm).toBe(null);
  // The last of them is through in part: its top is as wide as everywhere.
  for (const place of perMm.slice(0, 5)) expect(Math.abs((place.topWidthMm as number) - 2)).toBeLessThan(0.15);
  expect(perMm.slice(56).every((place) => place.state === 'untouched')).toBe(true);
  expect(summary.start).toEqual({ kind: 'uncut', mm: 4 });
  expect(summary.end.kind).toBe('uncut');
  expect(summary.end.mm).toBeCloseTo(8, 6);
  expect(summary.uncutMm).toBeCloseTo(12, 6);
  expect(summary.uncutSpots.map(({ fromMm, toMm }) => [Math.round(fromMm), Math.round(toMm)])).toEqual([
    [0, 4],
    [52, 60],
  ]);
});

test('a groove has its depth where it is deepest and its width on top, and no faces', () => {
  // A parabola 2.4 mm deep and 6 mm wide; the layer nearest to the top, 0.25 mm down, is 5.68 mm wide.
  const groove: MadeKerf = (_, depth) =>
    depth < 2.4 ? { left: 3 * Math.sqrt(1 - depth / 2.4), right: -3 * Math.sqrt(1 - depth / 2.4) } : null;
  const { perMm } = kerfQuality(madeMetal(6, groove), line, madeSamples(line), STEEL_6);
  for (const place of perMm) {
    expect(place.state).toBe('uncut');
    expect(place.depthMm).toBeGreaterThan(2);
    expect(place.depthMm).toBeLessThan(2.51);
    expect(Math.abs((place.topWidthMm as number) - 5.68)).toBeLessThan(0.3);
    expect(place).toMatchObject({ uMm: null, rz5Um: null, dragMm: null, bottomWidthMm: null });
  }
});

test('a scratch shallower than a layer still has a depth', () => {
  const metal = madeMetal(6, () => null);
  const scratch = { ...metal, cutAt: (_: number, y: number, depth: number) => (Math.abs(y) < 0.5 && depth < 0.5 ? 0.4 : 0) };
  const { perMm } = kerfQuality(scratch, line, madeSamples(line), STEEL_6);
  for (const place of perMm) expect(place.depthMm).toBeCloseTo(0.2, 6);
});

test('a start that was waited at too long is wide', () => {
  const flared: MadeKerf = (x) => ({ left: x < 2 ? 1.6 : 1, right: x < 2 ? -1.6 : -1 });
  const { summary } = kerfQuality(madeMetal(6, flared), line, madeSamples(line), STEEL_6);
  expect(summary.start.kind).toBe('wide');
  expect(summary.start.mm).toBeCloseTo(1.2, 1);
  expect(summary.end.kind).toBe('none');
});

test('line beside the plate is no metal, and counts neither as cut nor as left', () => {
  const { perMm, summary } = kerfQuality(
    madeMetal(6, (x) => (x < 60 ? { left: 1, right: -1 } : null), 10),
    line,
    madeSamples(line, (sample, s) => {
      if (s < 10) Object.assign(sample, { underMm3PerS: 0, throughFraction: 1, sparkAngleDeg: Number.NaN });
    }),
    STEEL_6,
  );
  expect(perMm.slice(0, 9).every((place) => place.state === 'no-metal')).toBe(true);
  // The tick that crosses the edge counts on both sides of it.
  expect(summary.metalMm).toBeGreaterThan(49.9);
  expect(summary.metalMm).toBeLessThan(51.1);
  expect(summary.uncutMm).toBe(0);
});

test('a longer spark lean is a longer drag, an unsteady or wandering arc a rougher face', () => {
  const of = (tell: Parameters<typeof madeSamples>[1]) =>
    kerfQuality(
      madeMetal(6, () => ({ left: 1, right: -1 })),
      line,
      madeSamples(line, tell),
      STEEL_6,
    ).summary;
  const plain = of(undefined);
  expect(plain.dragMm).toBeCloseTo(dragFromSparkMm(20, 0, 6), 6);
  const lagging = of((sample) => {
    sample.sparkAngleDeg = 35;
  });
  expect(lagging.dragMm).toBeGreaterThan((plain.dragMm as number) * 1.5);
  expect(lagging.rz5Um).toBeGreaterThan(plain.rz5Um as number);
  const unsteady = of((sample, s) => {
    sample.sparkAngleDeg += s % 1 < 0.5 ? 4 : -4;
  });
  expect(unsteady.dragMm).toBeCloseTo(plain.dragMm as number, 1);
  expect(unsteady.rz5Um).toBeGreaterThan((plain.rz5Um as number) + 15);
  const wandering = of((sample) => {
    sample.arcLeanDeg = 4;
  });
  expect(wandering.rz5Um).toBeGreaterThan((plain.rz5Um as number) + 20);
});

test('a notch of more than a cell in a face raises the profile height there and not elsewhere', () => {
  const notched: MadeKerf = (x) => ({ left: x > 30 && x < 31.5 ? 1.8 : 1, right: -1 });
  const { perMm } = kerfQuality(madeMetal(6, notched), line, madeSamples(line), STEEL_6);
  expect(perMm[30]?.rz5Um).toBeGreaterThan((perMm[10]?.rz5Um as number) + 30);
  expect(perMm[50]?.rz5Um).toBeCloseTo(perMm[10]?.rz5Um as number, 3);
});

test('the rows of the table cover the line without gap, and their figures are those of its places', () => {
  const { perMm, summary } = kerfQuality(madeMetal(6, tapered), line, madeSamples(line), STEEL_6);
  const rows = qualityRows(perMm.slice(0, 54), 10, 6);
  expect(rows.map((row) => [Math.round(row.fromMm), Math.round(row.toMm)])).toEqual([
    [0, 10],
    [10, 20],
    [20, 30],
    [30, 40],
    [40, 54],
  ]);
  for (const row of rows) expect(row.uMm).toBeCloseTo(summary.uMm as number, 2);
  expect(rows[1]?.tick).toBeGreaterThan(rows[0]?.tick as number);
  expect(qualityRows([], 10, 6)).toEqual([]);
});

test('a run without a single tick of arc leaves the whole line untouched', () => {
  const { summary, perMm } = kerfQuality(
    madeMetal(6, () => null),
    line,
    madeSamples(line, (sample) => {
      sample.arcState = 0;
    }),
    STEEL_6,
  );
  expect(perMm.every((place) => place.state === 'untouched' && place.tick === 0)).toBe(true);
  expect(summary).toMatchObject({ uMm: null, rz5Um: null, dragMm: null, heatAffectedMm: null, dross: { kind: 'none', mm: 0 } });
  expect(summary.uncutMm).toBeCloseTo(60, 6);
});
