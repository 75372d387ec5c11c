import type { PlateField } from './plate-field.ts';

/** Triangles of one tile, three vertices each, in the plate frame. `cut` is 0 on the rolled skin and 1 on metal the arc has shaped. */
export interface TileMesh {
  positions: Float32Array;
  normals: Float32Array;
  cut: Float32Array;
  vertexCount: number;
}

/** Depths under this count as untouched skin, mm. */
const SKIN_MM = 0.004;
/** Metal thinner than this is not drawn, mm. */
const THIN_MM = 0.01;

const UP: readonly [number, number, number] = [0, 0, 1];
const DOWN: readonly [number, number, number] = [0, 0, -1];

/** Grows as needed and is reused from tile to tile. */
class TriangleSink {
  positions = new Float32Array(3 * 4096);
  normals = new Float32Array(3 * 4096);
  cut = new Float32Array(4096);
  count = 0;

  vertex(x: number, y: number, z: number, normal: readonly [number, number, number], cut: number): void {
    if (this.count * 3 + 3 > this.positions.length) this.grow();
    const at = this.count * 3;
    this.positions[at] = x;
    this.positions[at + 1] = y;
    this.positions[at + 2] = z;
    this.normals[at] = normal[0];
    this.normals[at + 1] = normal[1];
    this.normals[at + 2] = normal[2];
    this.cut[this.count] = cut;
    this.count += 1;
  }

  private grow(): void {
    const doubled = (old: Float32Array<ArrayBuffer>) => {
      const next = new Float32Array(old.length * 2);
      next.set(old);
      return next;
    };
    this.positions = doubled(this.positions);
    this.normals = doubled(this.normals);
    this.cut = doubled(this.cut);
  }
}

const sink = new TriangleSink();

/**
 * Points of one tile: its cell centres and its borders. A border point is the mean of the cells on both sides, so neighbouring
 * tiles meet without a gap. The arrays are reused.
 */
class TilePoints {
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

const points = new TilePoints();

/** A corner of the outline of metal inside one square of four points. */
interface OutlinePoint {
  x: number;
  y: number;
  top: number;
  bottom: number;
  topNormal: readonly [number, number, number];
  bottomNormal: readonly [number, number, number];
  topCut: number;
  bottomCut: number;
  /** True where the outline runs along open space: two of these in a row carry a wall. */
  edge: boolean;
}

const CORNERS = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

/**
 * Builds what is left of one tile that belongs to `piece` (0 = the plate itself). Untouched stretches become a few large
 * rectangles; around the cut, the border between metal and open space is drawn between cell centres (marching squares), with
 * a wall from the upper to the lower face. Returns null where nothing is left.
 */
export function buildTile(field: PlateField, tile: number, piece: number): TileMesh | null {
  points.fill(field, tile, piece);
  sink.count = 0;
  block(field.thicknessMm, 0, 0, points.side - 1, points.side - 1);
  if (sink.count === 0) return null;
  return {
    positions: sink.positions.slice(0, sink.count * 3),
    normals: sink.normals.slice(0, sink.count * 3),
    cut: sink.cut.slice(0, sink.count),
    vertexCount: sink.count,
  };
}

function block(thicknessMm: number, i: number, j: number, w: number, h: number): void {
  if (points.roughIn(i, j, w, h) === 0) {
    flat(thicknessMm, i, j, w, h);
  } else if (w === 1 && h === 1) {
    square(thicknessMm, i, j);
  } else if (w >= h) {
    const half = w >> 1;
    block(thicknessMm, i, j, half, h);
    block(thicknessMm, i + half, j, w - half, h);
  } else {
    const half = h >> 1;
    block(thicknessMm, i, j, w, half);
    block(thicknessMm, i, j + half, w, h - half);
  }
}

function flat(thicknessMm: number, i: number, j: number, w: number, h: number): void {
  const x0 = points.x[i] as number;
  const x1 = points.x[i + w] as number;
  const y0 = points.y[j] as number;
  const y1 = points.y[j + h] as number;
  for (const [x, y] of [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y0],
    [x1, y1],
    [x0, y1],
  ] as const)
    sink.vertex(x, y, 0, UP, 0);
  for (const [x, y] of [
    [x0, y0],
    [x1, y1],
    [x1, y0],
    [x0, y0],
    [x0, y1],
    [x1, y1],
  ] as const)
    sink.vertex(x, y, -thicknessMm, DOWN, 0);
}

function square(thicknessMm: number, i: number, j: number): void {
  const outline: OutlinePoint[] = [];
  for (let n = 0; n < 4; n += 1) {
    const [di, dj] = CORNERS[n] as (typeof CORNERS)[number];
    const [ei, ej] = CORNERS[(n + 1) % 4] as (typeof CORNERS)[number];
    const here = (j + dj) * points.side + i + di;
    const next = (j + ej) * points.side + i + ei;
    const solidHere = points.solid[here] === 1;
    if (solidHere) outline.push(corner(thicknessMm, i + di, j + dj));
    if (solidHere !== (points.solid[next] === 1)) {
      outline.push(
        solidHere ? crossing(thicknessMm, i + di, j + dj, i + ei, j + ej) : crossing(thicknessMm, i + ei, j + ej, i + di, j + dj),
      );
    }
  }
  if (outline.length < 3) return;
  for (let n = 1; n + 1 < outline.length; n += 1) {
    const [a, b, c] = [outline[0], outline[n], outline[n + 1]] as [OutlinePoint, OutlinePoint, OutlinePoint];
    for (const p of [a, b, c]) sink.vertex(p.x, p.y, p.top, p.topNormal, p.topCut);
    for (const p of [a, c, b]) sink.vertex(p.x, p.y, p.bottom, p.bottomNormal, p.bottomCut);
  }
  for (let n = 0; n < outline.length; n += 1) {
    const a = outline[n] as OutlinePoint;
    const b = outline[(n + 1) % outline.length] as OutlinePoint;
    if (a.edge && b.edge) wall(a, b);
  }
}

function corner(thicknessMm: number, i: number, j: number): OutlinePoint {
  const at = j * points.side + i;
  const top = points.top[at] as number;
  const bottom = points.bottom[at] as number;
  return {
    x: points.x[i] as number,
    y: points.y[j] as number,
    top,
    bottom,
    topNormal: points.normal(i, j, true),
    bottomNormal: points.normal(i, j, false),
    topCut: top < -SKIN_MM ? 1 : 0,
    bottomCut: bottom > SKIN_MM - thicknessMm ? 1 : 0,
    edge: false,
  };
}

/** The border between a point with metal and an open one: nearer to the metal, the less is left of it. */
function crossing(thicknessMm: number, solidI: number, solidJ: number, openI: number, openJ: number): OutlinePoint {
  const from = corner(thicknessMm, solidI, solidJ);
  const left = (from.top - from.bottom) / thicknessMm;
  const share = Math.min(0.5, Math.max(0.1, 0.5 * left));
  return {
    ...from,
    x: from.x + ((points.x[openI] as number) - from.x) * share,
    y: from.y + ((points.y[openJ] as number) - from.y) * share,
    edge: true,
  };
}

function wall(a: OutlinePoint, b: OutlinePoint): void {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return;
  const normal: [number, number, number] = [dy / length, -dx / length, 0];
  sink.vertex(a.x, a.y, a.bottom, normal, 1);
  sink.vertex(b.x, b.y, b.bottom, normal, 1);
  sink.vertex(b.x, b.y, b.top, normal, 1);
  sink.vertex(a.x, a.y, a.bottom, normal, 1);
  sink.vertex(b.x, b.y, b.top, normal, 1);
  sink.vertex(a.x, a.y, a.top, normal, 1);
}
