import { HANGING_PIECE } from './piece-number.ts';
import type { PlateField } from './plate-field.ts';

/**
 * The core looks for loose pieces by the first cell of squares of so many cells: where that one is open, what is left in the square belongs
 * to no piece, and the rim of a piece has no number.
 */
const SQUARE_CELLS = 2;
/** Less is no metal, mm. */
const OPEN_MM = 0.01;

const OPEN = -1;
const STAYS = 0;

/**
 * Lets the rim of what has fallen go with it, in these tiles: open squares with a fallen piece beside them and nothing that stays. A rim
 * whose piece is back in the plate, as where time is run back, is plate again.
 * @returns the tiles that changed
 */
export function dropRims(field: PlateField, tiles: Iterable<number>): Set<number> {
  const { grid, stride, pieceOf, rim } = field;
  const squares = grid.tileCells / SQUARE_CELLS;
  const changed = new Set<number>();
  for (const tile of tiles) {
    const x0 = (tile % grid.tilesX) * squares;
    const y0 = Math.floor(tile / grid.tilesX) * squares;
    for (let y = y0; y < y0 + squares; y += 1) {
      for (let x = x0; x < x0 + squares; x += 1) {
        const first = firstCell(stride, x, y);
        if (pieceOf[first] !== 0 && rim[first] === 0) continue;
        const piece = squareIs(field, x, y) === OPEN ? pieceBeside(field, x, y) : STAYS;
        if (piece === pieceOf[first]) continue;
        for (const cell of [first, first + 1, first + stride, first + stride + 1]) {
          pieceOf[cell] = piece;
          rim[cell] = piece === STAYS ? 0 : 1;
        }
        changed.add(tile);
      }
    }
  }
  return changed;
}

function firstCell(stride: number, x: number, y: number): number {
  return y * SQUARE_CELLS * stride + x * SQUARE_CELLS;
}

/** Number of the fallen piece that a square belongs to, STAYS where it is metal that has not fallen. */
function squareIs(
  { grid, stride, pieceOf, rim, topDepthMm, bottomRiseMm, thicknessMm }: PlateField,
  x: number,
  y: number,
): number {
  if (x < 0 || y < 0 || (x + 1) * SQUARE_CELLS > grid.nx || (y + 1) * SQUARE_CELLS > grid.ny) return OPEN;
  const first = firstCell(stride, x, y);
  const piece = rim[first] === 1 ? 0 : (pieceOf[first] as number);
  if (piece === HANGING_PIECE) return STAYS;
  if (piece !== 0) return piece;
  return thicknessMm - (topDepthMm[first] as number) - (bottomRiseMm[first] as number) > OPEN_MM ? STAYS : OPEN;
}

/** Number of the fallen piece beside a square; STAYS where there is none, or where what stays is beside it too. */
function pieceBeside(field: PlateField, x: number, y: number): number {
  let piece = STAYS;
  for (let row = y - 1; row <= y + 1; row += 1) {
    for (let column = x - 1; column <= x + 1; column += 1) {
      const other = squareIs(field, column, row);
      if (other === STAYS) return STAYS;
      if (other !== OPEN) piece = other;
    }
  }
  return piece;
}
