import type { PlateField } from './plate-field.ts';

/** Depths under this count as untouched skin, mm. */
export const SKIN_MM = 0.004;
/** Metal thinner than this is not drawn, mm. */
const THIN_MM = 0.01;

/**
 * Points of one tile: its cell centres and its borders. A border point is the mean of the cells on both sides, so neighbouring
 * tiles meet without a gap. The arrays are reused.
 */
export class TilePoints {
  side = 0;
  x = new Float64Array(0);
  y = new Float64Array(0);
  top = new Float64Array(0);
  bottom = new Float64Array(0);
  solid = new Uint8Array(0);
  /** Running count of points that are not plain skin, for the question "is this whole block flat". */
  rough = new Int32Array(0);

  fill(field: PlateField, tile: number, piece: number): void {
    const { grid, thicknessMm, stride } = field;
    const cells = grid.tileCells;
    const side = cells + 2;
    if (side !== this.side) {
      this.side = side;
      this.x = new Float64Array(side);
      this.y = new Float64Array(side);
      this.top = new Float64Array(side * side);
      this.bottom = new Float64Array(side * side);
      this.solid = new Uint8Array(side * side);
      this.rough = new Int32Array((side + 1) * (side + 1));
    }
    const column0 = (tile % grid.tilesX) * cells;
    const row0 = Math.floor(tile / grid.tilesX) * cells;
    for (let k = 0; k < side; k += 1) {
      const offset = k === 0 ? 0 : k === side - 1 ? cells : k - 0.5;
      this.x[k] = grid.x0Mm + (column0 + offset) * grid.cellMm;
      this.y[k] = grid.y0Mm + (row0 + offset) * grid.cellMm;
    }
    const rows = grid.tilesY * cells;
    for (let j = 0; j < side; j += 1) {
      const rowA = row0 + j - 1;
      const rowB = j === 0 ? rowA + 1 : j === side - 1 ? rowA - 1 : rowA;
      for (let i = 0; i < side; i += 1) {
        const columnA = column0 + i - 1;
        const columnB = i === 0 ? columnA + 1 : i === side - 1 ? columnA - 1 : columnA;
        let depth = 0;
        let rise = 0;
        let solid = 1;
        for (let n = 0; n < 4; n += 1) {
          const row = n < 2 ? rowA : rowB;
          const column = n % 2 === 0 ? columnA : columnB;
          if (row < 0 || column < 0 || row >= rows || column >= stride) {
            solid = 0;
            break;
          }
          const cell = row * stride + column;
          const d = field.topDepthMm[cell] as number;
          const r = field.bottomRiseMm[cell] as number;
          if (field.pieceOf[cell] !== piece || thicknessMm - d - r < THIN_MM) {
            solid = 0;
            break;
          }
          depth += d / 4;
          rise += r / 4;
        }
        const at = j * side + i;
        this.solid[at] = solid;
        this.top[at] = -depth;
        this.bottom[at] = -thicknessMm + rise;
        const rough = solid === 1 && depth < SKIN_MM && rise < SKIN_MM ? 0 : 1;
        const above = this.rough[j * (side + 1) + i + 1] as number;
        const left = this.rough[(j + 1) * (side + 1) + i] as number;
        const both = this.rough[j * (side + 1) + i] as number;
        this.rough[(j + 1) * (side + 1) + i + 1] = rough + above + left - both;
      }
    }
  }

  /** Points that are not plain skin among those from (i, j) to (i + w, j + h), both included. */
  roughIn(i: number, j: number, w: number, h: number): number {
    const row = this.side + 1;
    const at = (a: number, b: number) => this.rough[b * row + a] as number;
    return at(i + w + 1, j + h + 1) - at(i, j + h + 1) - at(i + w + 1, j) + at(i, j);
  }

  /** Slope normal of the upper or lower face at a point; an open neighbour counts as level. */
  normal(i: number, j: number, upper: boolean): [number, number, number] {
    const surface = upper ? this.top : this.bottom;
    const z = (a: number, b: number) => {
      const inside = a >= 0 && b >= 0 && a < this.side && b < this.side;
      const at = b * this.side + a;
      return inside && this.solid[at] === 1 ? (surface[at] as number) : (surface[j * this.side + i] as number);
    };
    const span = (axis: Float64Array, k: number) =>
      (axis[Math.min(k + 1, this.side - 1)] as number) - (axis[Math.max(k - 1, 0)] as number);
    const slopeX = (z(i + 1, j) - z(i - 1, j)) / span(this.x, i);
    const slopeY = (z(i, j + 1) - z(i, j - 1)) / span(this.y, j);
    const length = Math.sqrt(slopeX * slopeX + slopeY * slopeY + 1);
    const sign = upper ? 1 : -1;
    return [(-slopeX * sign) / length, (-slopeY * sign) / length, sign / length];
  }
}
