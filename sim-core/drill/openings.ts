import { cos, floor, sin, TAU } from '../math/elementary.ts';
import type { PointMm } from '../run/types.ts';
import type { DrillPlate, Openings } from './plate-schema.ts';

/** Sides of the polygon that stands for a round hole. */
const HOLE_SIDES = 24;

/**
 * Closed outlines, mm, of the openings of expanded, slotted or punched plate: whole openings only, spread evenly about the
 * middle of the plate, with a rim of at least a strand's width around them. Diamonds stand in rows that are set off by half
 * a pitch, as expanded metal has them; the strand is measured square to their sides.
 */
export function openingOutlines(plate: Pick<DrillPlate, 'lengthMm' | 'widthMm' | 'openings'>): PointMm[][] {
  const { openings, lengthMm, widthMm } = plate;
  if (!openings) return [];
  const shape = outlineOf(openings);
  if (shape.length === 0) return [];
  const { pitchXMm, pitchYMm, strandMm, kind } = openings;
  const halfX = shape.reduce((most, { xMm }) => (xMm > most ? xMm : most), 0);
  const halfY = shape.reduce((most, { yMm }) => (yMm > most ? yMm : most), 0);
  const fits = (x: number, y: number): boolean =>
    x - halfX >= strandMm && x + halfX <= lengthMm - strandMm && y - halfY >= strandMm && y + halfY <= widthMm - strandMm;
  // Rows of diamonds interlock at half the pitch across; the others stand square.
  const rowMm = kind === 'diamonds' ? pitchYMm / 2 : pitchYMm;
  const rows = floor(widthMm / rowMm / 2) + 1;
  const columns = floor(lengthMm / pitchXMm / 2) + 1;
  const outlines: PointMm[][] = [];
  for (let row = -rows; row <= rows; row++) {
    const shift = kind === 'diamonds' && row % 2 !== 0 ? pitchXMm / 2 : 0;
    for (let column = -columns; column <= columns; column++) {
      const x = lengthMm / 2 + column * pitchXMm + shift;
      const y = widthMm / 2 + row * rowMm;
      if (fits(x, y)) outlines.push(shape.map((corner) => ({ xMm: x + corner.xMm, yMm: y + corner.yMm })));
    }
  }
  return outlines;
}

/** One opening about its middle; empty where the strands leave no room for one. */
function outlineOf({ kind, pitchXMm, pitchYMm, strandMm }: Openings): PointMm[] {
  if (kind === 'diamonds') {
    // Between the middle lines of the strands lies a diamond with half axes of half a pitch; half a strand comes off each side.
    const a = pitchXMm / 2;
    const b = pitchYMm / 2;
    const share = 1 - (strandMm / 2) * (Math.sqrt(a * a + b * b) / (a * b));
    return share <= 0
      ? []
      : [
          { xMm: a * share, yMm: 0 },
          { xMm: 0, yMm: b * share },
          { xMm: -a * share, yMm: 0 },
          { xMm: 0, yMm: -b * share },
        ];
  }
  const halfX = (pitchXMm - strandMm) / 2;
  const halfY = (pitchYMm - strandMm) / 2;
  if (halfX <= 0 || halfY <= 0) return [];
  if (kind === 'slots') {
    return [
      { xMm: -halfX, yMm: -halfY },
      { xMm: halfX, yMm: -halfY },
      { xMm: halfX, yMm: halfY },
      { xMm: -halfX, yMm: halfY },
    ];
  }
  const radius = halfX < halfY ? halfX : halfY;
  return Array.from({ length: HOLE_SIDES }, (_, side) => {
    const angle = (TAU * side) / HOLE_SIDES;
    return { xMm: radius * cos(angle), yMm: radius * sin(angle) };
  });
}
