/** A point of a plane, mm. */
interface Point {
  readonly xMm: number;
  readonly yMm: number;
}

export function distanceMm(a: Point, b: Point): number {
  const dx = b.xMm - a.xMm;
  const dy = b.yMm - a.yMm;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Whether a closed outline holds a point, by the even-odd rule. */
export function contains(outline: readonly Point[], xMm: number, yMm: number): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i]!;
    const b = outline[j]!;
    if (a.yMm > yMm === b.yMm > yMm) continue;
    if (xMm < ((b.xMm - a.xMm) * (yMm - a.yMm)) / (b.yMm - a.yMm) + a.xMm) inside = !inside;
  }
  return inside;
}

/** Area within a closed outline, mm2; positive where it runs anticlockwise: then its inside is on the left. */
export function signedAreaMm2(outline: readonly Point[]): number {
  let twice = 0;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    twice += outline[j]!.xMm * outline[i]!.yMm - outline[i]!.xMm * outline[j]!.yMm;
  }
  return twice / 2;
}
