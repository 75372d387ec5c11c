import type { PlateField } from './plate-field.ts';
import { SKIN_MM, TilePoints } from './tile-points.ts';
import { type Side, TriangleSink } from './triangle-sink.ts';

/**
 * Metal of one tile in the plate frame: vertices, and triangles between them by the side they look to. `cut` is 0 on the rolled skin
 * and 1 on metal the arc has shaped.
 */
export interface TileMesh extends Record<Side, Uint32Array> {
  positions: Float32Array;
  normals: Float32Array;
  cut: Float32Array;
  vertexCount: number;
}

const UP: readonly [number, number, number] = [0, 0, 1];
const DOWN: readonly [number, number, number] = [0, 0, -1];
const NONE = -1;

const sink = new TriangleSink();
const points = new TilePoints();
/** Vertex numbers of the points already drawn in this tile: neighbouring squares share them. */
let upperOf = new Int32Array(0);
let lowerOf = new Int32Array(0);

/** A corner of the outline of metal inside four points. */
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
  /** Number of the point it stands on, in the tile; NONE between two points. */
  point: number;
}

/** Corners of a square in order, the first once more at the end. */
const CORNER_X = [0, 1, 1, 0, 0] as const;
const CORNER_Y = [0, 0, 1, 1, 0] as const;

/**
 * Builds what is left of one tile that belongs to `piece` (0 = the plate itself). Untouched stretches become a few large
 * rectangles; around the cut, the border between metal and open space is drawn between cell centres (marching squares), with
 * a wall from the upper to the lower face. With `step` a square of that many cells a side is drawn as one; it divides the tile's
 * cells. Returns null where nothing is left.
 */
export function buildTile(field: PlateField, tile: number, piece: number, step = 1): TileMesh | null {
  points.fill(field, tile, piece, step);
  sink.clear();
  if (upperOf.length !== points.solid.length) {
    upperOf = new Int32Array(points.solid.length);
    lowerOf = new Int32Array(points.solid.length);
  }
  upperOf.fill(NONE);
  lowerOf.fill(NONE);
  block(field.thicknessMm, 0, 0, points.side - 1, points.side - 1);
  if (sink.vertexCount === 0) return null;
  return {
    positions: sink.positions.slice(0, sink.vertexCount * 3),
    normals: sink.normals.slice(0, sink.vertexCount * 3),
    cut: sink.cut.slice(0, sink.vertexCount),
    vertexCount: sink.vertexCount,
    upper: sink.indices.upper.slice(0, sink.counts.upper),
    wall: sink.indices.wall.slice(0, sink.counts.wall),
    lower: sink.indices.lower.slice(0, sink.counts.lower),
  };
}

function block(thicknessMm: number, i: number, j: number, w: number, h: number): void {
  if (points.roughIn(i, j, w, h) === 0) {
    flat(thicknessMm, i, j, w, h);
  } else if (w === 1 && h === 1) {
    patch(thicknessMm, i, j, 1, 1);
  } else if (points.alikeAlong('x', i, j, w, h)) {
    for (let n = 0; n < h; ) n += strip('x', thicknessMm, i, j + n, w, h - n);
  } else if (points.alikeAlong('y', i, j, w, h)) {
    for (let n = 0; n < w; ) n += strip('y', thicknessMm, i + n, j, h, w - n);
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

/**
 * The first strip of a block that is alike all along x (or y), `length` long, or as many plain ones as lie side by side, of `left`
 * at most. How many were drawn.
 */
function strip(axis: 'x' | 'y', thicknessMm: number, i: number, j: number, length: number, left: number): number {
  const size = (breadth: number): [number, number] => (axis === 'x' ? [length, breadth] : [breadth, length]);
  let plain = 0;
  while (plain < left && points.roughIn(i, j, ...size(plain + 1)) === 0) plain += 1;
  if (plain > 0) flat(thicknessMm, i, j, ...size(plain));
  else patch(thicknessMm, i, j, ...size(1));
  return Math.max(1, plain);
}

function flat(thicknessMm: number, i: number, j: number, w: number, h: number): void {
  const x0 = points.x[i] as number;
  const x1 = points.x[i + w] as number;
  const y0 = points.y[j] as number;
  const y1 = points.y[j + h] as number;
  for (const [side, z, normal] of [
    ['upper', 0, UP],
    ['lower', -thicknessMm, DOWN],
  ] as const) {
    const a = sink.vertex(x0, y0, z, normal, 0);
    const b = sink.vertex(x1, y0, z, normal, 0);
    const c = sink.vertex(x1, y1, z, normal, 0);
    const d = sink.vertex(x0, y1, z, normal, 0);
    turned(side, a, b, c);
    turned(side, a, c, d);
  }
}

/** A triangle that runs counterclockwise seen from above, turned over where its face looks down. */
function turned(side: 'upper' | 'lower', a: number, b: number, c: number): void {
  if (side === 'upper') sink.triangle(side, a, b, c);
  else sink.triangle(side, a, c, b);
}

/** What is left inside four points: a square, or a stretch of squares that are alike. */
function patch(thicknessMm: number, i: number, j: number, w: number, h: number): void {
  const outline: OutlinePoint[] = [];
  for (let n = 0; n < 4; n += 1) {
    const [di, dj] = [(CORNER_X[n] as number) * w, (CORNER_Y[n] as number) * h];
    const [ei, ej] = [(CORNER_X[n + 1] as number) * w, (CORNER_Y[n + 1] as number) * h];
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
  for (const side of ['upper', 'lower'] as const) {
    const first = faceVertex(side, outline[0] as OutlinePoint);
    let before = faceVertex(side, outline[1] as OutlinePoint);
    for (let n = 2; n < outline.length; n += 1) {
      const here = faceVertex(side, outline[n] as OutlinePoint);
      turned(side, first, before, here);
      before = here;
    }
  }
  for (let n = 0; n < outline.length; n += 1) {
    const a = outline[n] as OutlinePoint;
    const b = outline[(n + 1) % outline.length] as OutlinePoint;
    if (a.edge && b.edge) wall(a, b);
  }
}

function faceVertex(side: 'upper' | 'lower', p: OutlinePoint): number {
  const drawn = side === 'upper' ? upperOf : lowerOf;
  const known = p.point === NONE ? NONE : (drawn[p.point] as number);
  if (known !== NONE) return known;
  const made =
    side === 'upper'
      ? sink.vertex(p.x, p.y, p.top, p.topNormal, p.topCut)
      : sink.vertex(p.x, p.y, p.bottom, p.bottomNormal, p.bottomCut);
  if (p.point !== NONE) drawn[p.point] = made;
  return made;
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
    point: at,
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
    point: NONE,
  };
}

function wall(a: OutlinePoint, b: OutlinePoint): void {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  if (length === 0) return;
  const normal: [number, number, number] = [dy / length, -dx / length, 0];
  const low = sink.vertex(a.x, a.y, a.bottom, normal, 1);
  const nextLow = sink.vertex(b.x, b.y, b.bottom, normal, 1);
  const nextHigh = sink.vertex(b.x, b.y, b.top, normal, 1);
  const high = sink.vertex(a.x, a.y, a.top, normal, 1);
  sink.triangle('wall', low, nextLow, nextHigh);
  sink.triangle('wall', low, nextHigh, high);
}
