import { describe, expect, test } from 'vitest';
import { applyPatch, createPlateField, type PlateField } from '../../renderer/scene/plate-field.ts';
import { buildTile, type TileMesh } from '../../renderer/scene/tile-geometry.ts';
import type { FieldGrid } from '../../sim-core/index.ts';

const THICKNESS = 6;
const grid: FieldGrid = {
  cellMm: 0.25,
  nx: 64,
  ny: 64,
  layers: 12,
  layerMm: 0.5,
  x0Mm: 0,
  y0Mm: 0,
  tileCells: 32,
  tilesX: 2,
  tilesY: 2,
  heatCellsPerTile: 8,
};
const CELLS = 32 * 32;

/** One tile whose cells are shaped by a rule of their place, in mm from the tile's corner. */
function shaped(
  field: PlateField,
  tile: number,
  rule: (x: number, y: number) => { depth: number; rise?: number; piece?: number },
) {
  const patch = {
    tiles: Int32Array.of(tile),
    topDepthMm: new Float32Array(CELLS),
    bottomRiseMm: new Float32Array(CELLS),
    pieceOf: new Uint8Array(CELLS),
    temperatureC: new Float32Array(64).fill(20),
  };
  for (let n = 0; n < CELLS; n += 1) {
    const {
      depth,
      rise = depth >= THICKNESS ? THICKNESS : 0,
      piece = 0,
    } = rule(((n % 32) + 0.5) / 4, (Math.floor(n / 32) + 0.5) / 4);
    patch.topDepthMm[n] = depth;
    patch.bottomRiseMm[n] = rise;
    patch.pieceOf[n] = piece;
  }
  applyPatch(field, patch);
}

function triangles(mesh: TileMesh) {
  const corners = [...mesh.upper, ...mesh.wall, ...mesh.lower].map(
    (vertex) => Array.from(mesh.positions.subarray(vertex * 3, vertex * 3 + 3)) as [number, number, number],
  );
  return Array.from({ length: corners.length / 3 }, (_, t) => corners.slice(t * 3, t * 3 + 3));
}

/** Volume inside a closed surface by the divergence theorem; wrong or missing faces show at once. */
function volume(mesh: TileMesh): number {
  let sum = 0;
  for (const [a, b, c] of triangles(mesh) as [number, number, number][][] as [
    [number, number, number],
    [number, number, number],
    [number, number, number],
  ][]) {
    sum += a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
}

/** Area of faces that look up, seen from above. */
function areaFromAbove(mesh: TileMesh): number {
  let sum = 0;
  for (const [a, b, c] of triangles(mesh)) {
    const cross =
      ((b?.[0] ?? 0) - (a?.[0] ?? 0)) * ((c?.[1] ?? 0) - (a?.[1] ?? 0)) -
      ((b?.[1] ?? 0) - (a?.[1] ?? 0)) * ((c?.[0] ?? 0) - (a?.[0] ?? 0));
    if (cross > 0) sum += cross / 2;
  }
  return sum;
}

/** A field of four tiles of which only the first has metal: every border of that tile carries a wall, so its surface is closed. */
function alone(): PlateField {
  const field = createPlateField(grid, THICKNESS);
  for (const tile of [1, 2, 3]) shaped(field, tile, () => ({ depth: THICKNESS }));
  field.dirty.clear();
  return field;
}

describe('a tile of metal as triangles', () => {
  test('an untouched tile inside the plate is two rectangles', () => {
    const field = createPlateField({ ...grid, tilesX: 3, tilesY: 3, nx: 96, ny: 96 }, THICKNESS);
    const mesh = buildTile(field, 4, 0) as TileMesh;
    expect(mesh.vertexCount).toBe(8);
    expect([mesh.upper.length, mesh.wall.length, mesh.lower.length]).toEqual([6, 0, 6]);
    expect(areaFromAbove(mesh)).toBeCloseTo(64, 6);
    expect(Math.max(...mesh.cut)).toBe(0);
  });

  test('a slot through the tile is open: nothing is drawn over it, and its walls close the surface', () => {
    const field = alone();
    shaped(field, 0, (_, y) => ({ depth: y > 3 && y < 5 ? THICKNESS : 0 }));
    const mesh = buildTile(field, 0, 0) as TileMesh;
    for (const corners of triangles(mesh)) {
      const middle = corners.reduce((sum, p) => sum + p[1], 0) / 3;
      const flat = corners.every((p) => p[2] === 0 || p[2] === -THICKNESS);
      if (flat && corners.every((p) => p[2] === corners[0]?.[2])) expect(Math.abs(middle - 4)).toBeGreaterThan(0.85);
    }
    // The tile's rim stands a quarter cell inside its border on the three open sides.
    const left = areaFromAbove(mesh);
    expect(left).toBeGreaterThan(46);
    expect(left).toBeLessThan(48.1);
    expect(volume(mesh)).toBeCloseTo(left * THICKNESS, 4);
  });

  test('straight stretches are drawn as one: an edge, and the sides of a steady cut', () => {
    const field = createPlateField({ ...grid, tilesX: 3, tilesY: 3, nx: 96, ny: 96 }, THICKNESS);
    for (const tile of [3, 4, 5]) shaped(field, tile, (_, y) => ({ depth: y > 3 && y < 5 ? THICKNESS : 0 }));
    // Square by square it would be more than a hundred on its walls alone.
    const count = ({ upper, wall, lower }: TileMesh) => (upper.length + wall.length + lower.length) / 3;
    expect(count(buildTile(field, 4, 0) as TileMesh)).toBeLessThan(60);
    shaped(field, 4, (x, y) => ({ depth: y > 3 + Math.sin(x * 3) && y < 5 ? THICKNESS : 0 }));
    expect(count(buildTile(field, 4, 0) as TileMesh)).toBeGreaterThan(120);
  });

  test('drawn coarsely, what is open stays open and what is left keeps its volume', () => {
    const field = alone();
    shaped(field, 0, (x, y) => ({ depth: Math.abs(y - 4 - x / 5) < 0.75 ? THICKNESS : x > 6 ? 1.5 : 0 }));
    const fine = buildTile(field, 0, 0) as TileMesh;
    const coarse = buildTile(field, 0, 0, 2) as TileMesh;
    expect(coarse.vertexCount).toBeLessThan(0.6 * fine.vertexCount);
    // Along the border of the cut a coarse point may stand half of its 0.5 mm off: over two sides of 9 mm length and 6 mm depth.
    expect(Math.abs(volume(coarse) - volume(fine))).toBeLessThan(2 * 9 * 6 * 0.25);
    const over = (mesh: TileMesh) =>
      triangles(mesh).some((corners) => {
        const [x, y] = [0, 1].map((axis) => corners.reduce((sum, p) => sum + (p[axis] as number), 0) / 3) as [number, number];
        return Math.abs(y - 4 - x / 5) < 0.3;
      });
    expect([over(fine), over(coarse)]).toEqual([false, false]);
  });

  test('a blind groove lowers the upper face, is marked as cut, and takes its volume away', () => {
    const whole = alone();
    shaped(whole, 0, () => ({ depth: 0 }));
    const before = volume(buildTile(whole, 0, 0) as TileMesh);
    const field = alone();
    shaped(field, 0, (x, y) => ({ depth: x > 2 && x < 6 && y > 2 && y < 6 ? 2 : 0 }));
    const mesh = buildTile(field, 0, 0) as TileMesh;
    expect(Math.min(...Array.from(mesh.positions).filter((_, n) => n % 3 === 2 && true))).toBe(-THICKNESS);
    expect(before - volume(mesh)).toBeGreaterThan(28);
    expect(before - volume(mesh)).toBeLessThan(36);
    expect(Math.max(...mesh.cut)).toBe(1);
  });

  test('metal cut from below hangs over: the upper face stays, the lower one rises', () => {
    const field = alone();
    shaped(field, 0, (x) => ({ depth: 0, rise: x > 3 ? 4 : 0 }));
    const mesh = buildTile(field, 0, 0) as TileMesh;
    const heights = new Set(triangles(mesh).flatMap((t) => t.map((p) => p[2])));
    expect(heights.has(0)).toBe(true);
    expect([...heights].some((z) => Math.abs(z + 2) < 1e-6)).toBe(true);
  });

  test('a piece that has come away is its own surface; with the plate it makes up the whole', () => {
    const field = alone();
    shaped(field, 0, (_, y) => (y > 3 && y < 4 ? { depth: THICKNESS } : { depth: 0, piece: y > 4 ? 1 : 0 }));
    const plate = buildTile(field, 0, 0) as TileMesh;
    const piece = buildTile(field, 0, 1) as TileMesh;
    expect(buildTile(field, 0, 2)).toBeNull();
    expect(Math.max(...triangles(plate).flatMap((t) => t.map((p) => p[1])))).toBeLessThan(3.3);
    expect(Math.min(...triangles(piece).flatMap((t) => t.map((p) => p[1])))).toBeGreaterThan(3.7);
    expect(volume(plate)).toBeGreaterThan(0);
    expect(volume(piece)).toBeGreaterThan(volume(plate));
  });

  test('faces are kept apart by the side they look to, and neighbouring squares share their corners', () => {
    const field = alone();
    shaped(field, 0, (x, y) => ({ depth: x > 2 && x < 6 && y > 2 && y < 6 ? 1 + x / 4 : 0 }));
    const mesh = buildTile(field, 0, 0) as TileMesh;
    const rise = (side: 'upper' | 'lower') =>
      Array.from(mesh[side], (vertex) => mesh.normals[vertex * 3 + 2] as number).map((z) => Math.sign(z));
    expect(new Set(rise('upper'))).toEqual(new Set([1]));
    expect(new Set(rise('lower'))).toEqual(new Set([-1]));
    expect(Array.from(mesh.wall, (vertex) => mesh.normals[vertex * 3 + 2])).toSatisfy((all: number[]) =>
      all.every((z) => z === 0),
    );
    // Far fewer than the three of every triangle, or the picture is drawn several times as slowly without a graphics card.
    expect(mesh.vertexCount).toBeLessThan((mesh.upper.length + mesh.wall.length + mesh.lower.length) / 2);
  });

  test('neighbouring tiles meet without a gap where a groove crosses the border', () => {
    const field = createPlateField(grid, THICKNESS);
    // Deeper all the way across, so that no two of its points are drawn as one.
    const groove = (x: number, y: number) => ({ depth: y > 3 && y < 5 ? y / 4 + x / 8 : 0 });
    shaped(field, 0, groove);
    shaped(field, 1, (x, y) => groove(x + 8, y));
    const edge = (tile: number) =>
      new Set(
        triangles(buildTile(field, tile, 0) as TileMesh)
          .flat()
          .filter((p) => p[0] === 8 && p[2] > -3)
          .map((p) => `${p[1].toFixed(4)} ${p[2].toFixed(4)}`),
      );
    const [left, right] = [edge(0), edge(1)];
    const carved = [...left].filter((p) => !p.endsWith(' 0.0000'));
    expect(carved.length).toBeGreaterThan(6);
    for (const point of carved) expect(right.has(point)).toBe(true);
  });

  test('a change at a border has the tile beyond it rebuilt, a change inside does not', () => {
    const field = createPlateField(grid, THICKNESS);
    shaped(field, 0, (x, y) => ({ depth: x > 4 && x < 5 && y > 4 && y < 5 ? 1 : 0 }));
    expect([...field.dirty]).toEqual([0]);
    field.dirty.clear();
    shaped(field, 0, (x) => ({ depth: x > 7.8 ? 1 : 0 }));
    expect([...field.dirty].sort()).toEqual([0, 1, 2, 3].filter((tile) => field.dirty.has(tile)));
    expect(field.dirty.has(1)).toBe(true);
  });
});

describe('the rim of a piece that has fallen', () => {
  /** A kerf from 3 to 4.75 mm, in which one row of cells is left at 3.25 mm; left of it piece 1. */
  const slot = (x: number) => ({ depth: x > 3 && x < 4.75 && !(x > 3.25 && x < 3.5) ? THICKNESS : 0, piece: x < 3 ? 1 : 0 });

  test('goes with the piece; the rim that is opposite stays', () => {
    const field = createPlateField(grid, THICKNESS);
    shaped(field, 0, slot);
    const at = (xMm: number) => field.pieceOf[10 * field.stride + Math.floor(xMm / grid.cellMm)];
    expect([2.1, 3.3].map(at)).toEqual([1, 1]);
    expect([4.8, 5.1].map(at)).toEqual([0, 0]);
    field.dirty.clear();
    shaped(field, 0, slot);
    expect(field.dirty.size, 'what comes once more as it was is not built again').toBe(0);
  });

  test('stays where nothing has fallen, and comes back where the run is shown from before', () => {
    const field = createPlateField(grid, THICKNESS);
    shaped(field, 0, slot);
    shaped(field, 0, (x) => ({ ...slot(x), piece: 0 }));
    expect(field.pieceOf.every((piece) => piece === 0)).toBe(true);
  });
});
