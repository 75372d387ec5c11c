import { describe, expect, test } from 'vitest';
import { fallPose } from '../../renderer/scene/fall-pose.ts';
import { createHangSag } from '../../renderer/scene/hang-sag.ts';
import { createHangWatch, sagRad } from '../../renderer/scene/hanging-piece.ts';
import { HANGING_PIECE } from '../../renderer/scene/piece-number.ts';
import { applyPatch, createPlateField, type PlateField } from '../../renderer/scene/plate-field.ts';
import type { SimulationSetup } from '../../sim-core/index.ts';

const LENGTH_MM = 80;
const WIDTH_MM = 64;
const THICKNESS_MM = 6;
const CELL_MM = 0.5;
const TILE_CELLS = 16;
const grid = {
  cellMm: CELL_MM,
  nx: LENGTH_MM / CELL_MM,
  ny: WIDTH_MM / CELL_MM,
  layers: 12,
  layerMm: 0.5,
  x0Mm: 0,
  y0Mm: 0,
  tileCells: TILE_CELLS,
  tilesX: LENGTH_MM / CELL_MM / TILE_CELLS,
  tilesY: WIDTH_MM / CELL_MM / TILE_CELLS,
  heatCellsPerTile: 4,
};
const setup = {
  material: 'mild-steel',
  thicknessMm: THICKNESS_MM,
  lengthMm: LENGTH_MM,
  widthMm: WIDTH_MM,
  supports: [
    { xMm: 2, yMm: 2 },
    { xMm: 2, yMm: 60 },
  ],
  rig: 'hand',
  currentA: 45,
  seed: 1,
} as unknown as SimulationSetup;

const across = Array.from({ length: WIDTH_MM + 1 }, (_, n) => ({ xMm: 40, yMm: n }));
const ring = Array.from({ length: 101 }, (_, n) => ({
  xMm: 40 + 16 * Math.cos((n * Math.PI) / 50),
  yMm: 32 + 16 * Math.sin((n * Math.PI) / 50),
}));

/** A slot 2 mm wide through the metal along a line, up to a share of its length. */
function cut(field: PlateField, line: readonly { xMm: number; yMm: number }[], share: number): void {
  const end = share * (line.length - 1);
  for (let at = 0; at <= end; at += 0.1) {
    const [a, b] = [line[Math.floor(at)], line[Math.min(line.length - 1, Math.floor(at) + 1)]];
    if (!a || !b) continue;
    const xMm = a.xMm + (b.xMm - a.xMm) * (at % 1);
    const yMm = a.yMm + (b.yMm - a.yMm) * (at % 1);
    for (let row = 0; row < grid.ny; row += 1) {
      for (let column = 0; column < grid.nx; column += 1) {
        if (Math.hypot((column + 0.5) * CELL_MM - xMm, (row + 0.5) * CELL_MM - yMm) > 1) continue;
        field.topDepthMm[row * field.stride + column] = THICKNESS_MM;
        field.bottomRiseMm[row * field.stride + column] = THICKNESS_MM;
      }
    }
  }
}

const pieceAt = (field: PlateField, xMm: number, yMm: number) =>
  field.pieceOf[Math.floor(yMm / CELL_MM) * field.stride + Math.floor(xMm / CELL_MM)];

describe('a piece that hangs by little', () => {
  test('it sags by its weight and arm, less the more metal is left, and never further than it can be held', () => {
    expect(sagRad(1.5, 30, 4, 6)).toBeLessThan(0.001);
    expect(sagRad(1.5, 30, 0.2, 6)).toBeGreaterThan(0.05);
    expect(sagRad(3, 30, 1, 6)).toBeGreaterThan(sagRad(1.5, 30, 1, 6));
    expect(sagRad(1.5, 30, 1, 3)).toBeGreaterThan(sagRad(1.5, 30, 1, 6));
    expect(sagRad(50, 200, 0.2, 3)).toBe(sagRad(500, 200, 0.2, 3));
  });

  test('of a plate cut nearly across, the part that nothing else holds tips down at its far side', () => {
    const field = createPlateField(grid, THICKNESS_MM);
    cut(field, across, 0.5);
    const watch = createHangWatch(setup, across, field);
    expect(watch.look(0)).toBeNull();
    cut(field, across, 0.96);
    const hang = watch.look(0);
    expect(hang?.areaMm2).toBeGreaterThan(2300);
    expect(hang?.areaMm2).toBeLessThan(2560);
    expect(hang?.centreXMm).toBeCloseTo(60.5, 0);
    expect(hang?.tabMm).toBeLessThan(3);
    expect(hang?.tipRad).toBeGreaterThan(0);
    expect(hang?.dropMm).toBeGreaterThan(0);
    expect(pieceAt(field, 70, 30)).toBe(HANGING_PIECE);
    expect(pieceAt(field, 10, 30)).toBe(0);
  });

  test('a closed shape hangs as what is inside, and is back in the plate when time runs back', () => {
    const field = createPlateField(grid, THICKNESS_MM);
    const whole = createPlateField(grid, THICKNESS_MM);
    cut(field, ring, 0.97);
    const watch = createHangWatch(setup, ring, field);
    expect(watch.look(0)?.areaMm2).toBeCloseTo(Math.PI * 15 * 15, -2);
    expect(pieceAt(field, 40, 32)).toBe(HANGING_PIECE);
    expect(pieceAt(field, 70, 32)).toBe(0);
    field.topDepthMm.set(whole.topDepthMm);
    field.bottomRiseMm.set(whole.bottomRiseMm);
    expect(watch.look(0)).toBeNull();
    expect(pieceAt(field, 40, 32)).toBe(0);
  });

  test('what comes of its tiles leaves it hanging, and a fall by the core goes before', () => {
    const field = createPlateField(grid, THICKNESS_MM);
    cut(field, across, 0.96);
    createHangWatch(setup, across, field).look(0);
    const tile = 3 * grid.tilesX + 8;
    const cells = TILE_CELLS * TILE_CELLS;
    const patch = (piece: number) => ({
      tiles: Int32Array.of(tile),
      topDepthMm: new Float32Array(cells),
      bottomRiseMm: new Float32Array(cells),
      pieceOf: new Uint8Array(cells).fill(piece),
      temperatureC: new Float32Array(16).fill(20),
    });
    applyPatch(field, patch(0));
    expect(pieceAt(field, 68, 28)).toBe(HANGING_PIECE);
    applyPatch(field, patch(1));
    expect(pieceAt(field, 68, 28)).toBe(1);
  });

  test('it falls on from the pose in which it hung', () => {
    const field = createPlateField(grid, THICKNESS_MM);
    cut(field, across, 0.96);
    const sag = createHangSag(setup, across, field);
    const piece = { id: 1, tick: 240, centreXMm: 60, centreYMm: 32, areaMm2: 2400 };
    sag.frame({ fallen: [], rate: 0 }, 0);
    const hung = field.hang;
    expect(hung?.tipRad).toBeGreaterThan(0);
    cut(field, across, 1);
    for (let cell = 0; cell < field.pieceOf.length; cell += 1) if (field.pieceOf[cell] === HANGING_PIECE) field.pieceOf[cell] = 1;
    sag.metalChanged();
    sag.frame({ fallen: [piece], rate: 1 }, 0.02);
    const start = fallPose(piece, 240, 40, 32, field.fellFrom.get(1));
    expect(start.tipRad).toBe(hung?.tipRad);
    expect(start.dropMm).toBe(hung?.dropMm);
    expect(start.axisRad).toBe(hung?.axisRad);
    expect(field.hang).toBeNull();
  });
});
