import type { MarkedLine } from './skin-canvas.ts';

/** Direction of the marked line at its point nearest to a place, radians from +x toward +y; 0 for a line of one point. */
export function lineHeading(line: MarkedLine, xMm: number, yMm: number): number {
  let nearest = 0;
  let least = Number.POSITIVE_INFINITY;
  line.forEach((point, n) => {
    const square = (point.xMm - xMm) ** 2 + (point.yMm - yMm) ** 2;
    if (square < least) {
      least = square;
      nearest = n;
    }
  });
  const from = line[Math.min(nearest, Math.max(0, line.length - 2))];
  const to = line[Math.min(nearest + 1, line.length - 1)];
  return from && to ? Math.atan2(to.yMm - from.yMm, to.xMm - from.xMm) : 0;
}
