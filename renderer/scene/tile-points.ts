import type { PlateField } from './plate-field.ts';

/** Depths under this count as untouched skin, mm. */
export const SKIN_MM = 0.004;
/** Metal thinner than this is not drawn, mm. */
const THIN_MM = 0.01;
/** Heights that differ by less than this are drawn as one, mm: for every cell, and where squares of them are drawn as one point. */
const ALIKE_MM = 0.004;
const ALIKE_COARSE_MM = 0.04;

/**
 * Points of one tile: its cell centres and its borders. A border point is the mean of the cells on both sides, so neighbouring
 * tiles meet without a gap. Drawn coarsely, a square of `step` by `step` cells stands for one. The arrays are reused.
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

  #alikeMm = ALIKE_MM;
  #step = 1;
  /** Depth and rise of the cells that were read last, mm. */
  #depth = 0;
  #rise = 0;

  fill(field: PlateField, tile: number, piece: number, step: number): void {
    const { grid, thicknessMm } = field;
    const cells = grid.tileCells / step;
    const side = cells + 2;
    this.#step = step;
    this.#alikeMm = step > 1 ? ALIKE_COARSE_MM : ALIKE_MM;
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
    const pitch = grid.cellMm * step;
    for (let k = 0; k < side; k += 1) {
      const offset = k === 0 ? 0 : k === side - 1 ? cells : k - 0.5;
      this.x[k] = grid.x0Mm + (column0 + offset) * pitch;
      this.y[k] = grid.y0Mm + (row0 + offset) * pitch;
    }
    for (let j = 0; j < side; j += 1) {
      const rowA = row0 + j - 1;
      const rowB = j === 0 ? rowA + 1 : j === side - 1 ? rowA - 1 : rowA;
      for (let i = 0; i < side; i += 1) {
        const columnA = column0 + i - 1;
        const columnB = i === 0 ? columnA + 1 : i === side - 1 ? columnA - 1 : columnA;
        let solid = this.#read(field, columnA, rowA, piece);
        let depth = this.#depth;
        let rise = this.#rise;
        if (columnB !== columnA || rowB !== rowA) {
          let count = 1;
          for (let n = 1; n < 4 && solid; n += 1) {
            const column = n % 2 === 0 ? columnA : columnB;
            const row = n < 2 ? rowA : rowB;
            solid = this.#read(field, column, row, piece);
            depth += this.#depth;
            rise += this.#rise;
            count += 1;
          }
          depth /= count;
          rise /= count;
        }
        if (!solid) depth = rise = 0;
        const at = j * side + i;
        this.solid[at] = solid ? 1 : 0;
        this.top[at] = -depth;
        this.bottom[at] = -thicknessMm + rise;
        const rough = solid && depth < SKIN_MM && rise < SKIN_MM ? 0 : 1;
        const above = this.rough[j * (side + 1) + i + 1] as number;
        const left = this.rough[(j + 1) * (side + 1) + i] as number;
        const both = this.rough[j * (side + 1) + i] as number;
        this.rough[(j + 1) * (side + 1) + i + 1] = rough + above + left - both;
      }
    }
  }

  /** Reads one cell, or one square of them, which counts as metal where half of its cells do; false where it is open. */
  #read(
    { grid, stride, thicknessMm, topDepthMm, bottomRiseMm, pieceOf }: PlateField,
    column: number,
    row: number,
    piece: number,
  ): boolean {
    this.#depth = 0;
    this.#rise = 0;
    const step = this.#step;
    if (row < 0 || column < 0 || row * step >= grid.tilesY * grid.tileCells || column * step >= stride) return false;
    let metal = 0;
    for (let j = 0; j < step; j += 1) {
      for (let i = 0; i < step; i += 1) {
        const cell = (row * step + j) * stride + column * step + i;
        const depth = topDepthMm[cell] as number;
        const rise = bottomRiseMm[cell] as number;
        if (pieceOf[cell] !== piece || thicknessMm - depth - rise < THIN_MM) continue;
        metal += 1;
        this.#depth += depth;
        this.#rise += rise;
      }
    }
    if (metal * 2 < step * step || metal === 0) return false;
    this.#depth /= metal;
    this.#rise /= metal;
    return true;
  }

  /** Whether a block from (i, j) to (i + w, j + h) is the same all along x (or y): a straight edge, or the side of a steady cut. */
  alikeAlong(axis: 'x' | 'y', i: number, j: number, w: number, h: number): boolean {
    const [along, across] = axis === 'x' ? [1, this.side] : [this.side, 1];
    const [length, breadth] = axis === 'x' ? [w, h] : [h, w];
    for (let b = 0; b <= breadth; b += 1) {
      const first = j * this.side + i + b * across;
      for (let a = 1; a <= length; a += 1) {
        const at = first + a * along;
        if (this.solid[at] !== this.solid[first]) return false;
        if (Math.abs((this.top[at] as number) - (this.top[first] as number)) > this.#alikeMm) return false;
        if (Math.abs((this.bottom[at] as number) - (this.bottom[first] as number)) > this.#alikeMm) return false;
      }
    }
    return true;
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
