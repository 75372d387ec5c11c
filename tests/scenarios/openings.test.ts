// Expanded, slotted and punched plate: whole openings, strands as wide as asked for, a rim all round.
import { describe, expect, test } from 'vitest';
import { openingOutlines } from '../../sim-core/drill/openings.ts';
import { type PointMm, setupFromDrill } from '../../sim-core/index.ts';
import { shippedDrill } from './drill-files.ts';

const plate = { lengthMm: 120, widthMm: 80 };
const of = (kind: 'diamonds' | 'slots' | 'holes', pitchXMm: number, pitchYMm: number, strandMm: number) =>
  openingOutlines({ ...plate, openings: { kind, pitchXMm, pitchYMm, strandMm } });

function span(outline: PointMm[]): { lowX: number; highX: number; lowY: number; highY: number } {
  const xs = outline.map(({ xMm }) => xMm);
  const ys = outline.map(({ yMm }) => yMm);
  return { lowX: Math.min(...xs), highX: Math.max(...xs), lowY: Math.min(...ys), highY: Math.max(...ys) };
}

describe.each(['diamonds', 'slots', 'holes'] as const)('%s', (kind) => {
  const outlines = of(kind, 30, 15, 3);

  test('stand whole inside a rim of a strand', () => {
    expect(outlines.length).toBeGreaterThan(6);
    for (const outline of outlines) {
      const { lowX, highX, lowY, highY } = span(outline);
      expect(lowX).toBeGreaterThanOrEqual(3 - 1e-9);
      expect(lowY).toBeGreaterThanOrEqual(3 - 1e-9);
      expect(highX).toBeLessThanOrEqual(117 + 1e-9);
      expect(highY).toBeLessThanOrEqual(77 + 1e-9);
    }
  });

  test('lie evenly about the middle of the plate', () => {
    const middles = outlines.map((outline) => span(outline)).map(({ lowX, highX, lowY, highY }) => [lowX + highX, lowY + highY]);
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length / 2;
    expect(mean(middles.map(([x]) => x))).toBeCloseTo(60, 9);
    expect(mean(middles.map(([, y]) => y))).toBeCloseTo(40, 9);
  });
});

test('slots and holes leave a strand between neighbours', () => {
  const [first, second] = of('slots', 30, 15, 3)
    .map(span)
    .filter(({ lowY }, _n, all) => lowY === all[0].lowY);
  expect(second.lowX - first.highX).toBeCloseTo(3, 9);
  const hole = span(of('holes', 20, 20, 6)[0]);
  expect(hole.highX - hole.lowX).toBeCloseTo(14, 6);
});

test('diamonds leave a strand of that width, square to their sides', () => {
  const outlines = of('diamonds', 30, 15, 3);
  const inMiddle = outlines
    .map(span)
    .find(({ lowX, highX, lowY, highY }) => Math.abs(lowX + highX - 120) + Math.abs(lowY + highY - 80) < 1e-6);
  if (!inMiddle) throw new Error('no diamond in the middle');
  // Distance between the parallel sides of the full diamond and of the opening: half a strand.
  const a = 15;
  const b = 7.5;
  const square = (a * b) / Math.hypot(a, b);
  const open = (((inMiddle.highX - inMiddle.lowX) / 2) * b) / Math.hypot(a, b);
  expect(square - open).toBeCloseTo(1.5, 9);
});

test('strands that leave no room leave a plain plate', () => {
  expect(of('diamonds', 8, 8, 30)).toEqual([]);
  expect(openingOutlines({ ...plate, openings: null })).toEqual([]);
});

test('a drill has them as places without metal beside its own cut-outs', () => {
  const base = shippedDrill('hanger-tab-straight-6');
  const own = [
    { xMm: 5, yMm: 5 },
    { xMm: 9, yMm: 5 },
    { xMm: 9, yMm: 9 },
  ];
  const openings = { kind: 'slots' as const, pitchXMm: 40, pitchYMm: 30, strandMm: 8 };
  const drill = { ...base, plate: { ...base.plate, cutouts: [own], openings } };
  expect(setupFromDrill(drill, 1).cutouts).toEqual([own, ...openingOutlines(drill.plate)]);
});
