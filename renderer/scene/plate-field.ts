import type { FieldGrid } from '../../sim-core/index.ts';
import type { PiecePose } from './fall-pose.ts';
import { glowByte } from './glow-ramp.ts';
import { HANGING_PIECE } from './piece-number.ts';
import { dropRims } from './piece-rim.ts';

/** What came of one or more tiles since the last frame: numbers, then their cells one tile after another. */
export interface TilePatch {
  tiles: Int32Array;
  topDepthMm: Float32Array;
  bottomRiseMm: Float32Array;
  pieceOf: Uint8Array;
  temperatureC: Float32Array;
}

/**
 * The page's copy of the metal, laid out as whole-plate rows so that a tile can look over its borders.
 * `dirty` holds the tiles whose shape changed since the scene last took them.
 */
export interface PlateField {
  readonly grid: FieldGrid;
  readonly thicknessMm: number;
  /** Cells in a row: tilesX * tileCells. Cells past the grid are open. */
  readonly stride: number;
  readonly topDepthMm: Float32Array;
  readonly bottomRiseMm: Float32Array;
  readonly pieceOf: Uint8Array;
  /** 1 where a cell has its number as the rim of a piece, which the core gives none. */
  readonly rim: Uint8Array;
  /** Heat as ramp bytes, one row per heat cell row. */
  readonly heat: Uint8Array;
  readonly heatWidth: number;
  readonly heatHeight: number;
  readonly dirty: Set<number>;
  heatChanged: boolean;
  /** Cells of the piece that hangs by little; null = none. */
  hanging: Uint8Array | null;
  /** Draws these cells as a piece of its own, whatever else comes of them; null = none. */
  setHanging(cells: Uint8Array | null): void;
  /** How that piece is drawn now; null = none. */
  hang: PiecePose | null;
  /** Something has fallen at some time: rims are looked for. */
  rimmed: boolean;
  /** How each fallen piece hung when it was last seen to. */
  readonly fellFrom: Map<number, PiecePose>;
}

export function createPlateField(grid: FieldGrid, thicknessMm: number): PlateField {
  const stride = grid.tilesX * grid.tileCells;
  const rows = grid.tilesY * grid.tileCells;
  const heatWidth = grid.tilesX * grid.heatCellsPerTile;
  const heatHeight = grid.tilesY * grid.heatCellsPerTile;
  const field: PlateField = {
    grid: { ...grid },
    thicknessMm,
    stride,
    topDepthMm: new Float32Array(stride * rows),
    bottomRiseMm: new Float32Array(stride * rows),
    pieceOf: new Uint8Array(stride * rows),
    rim: new Uint8Array(stride * rows),
    heat: new Uint8Array(heatWidth * heatHeight),
    heatWidth,
    heatHeight,
    dirty: new Set(),
    heatChanged: true,
    hanging: null,
    hang: null,
    rimmed: false,
    fellFrom: new Map(),
    setHanging: (cells) => markHanging(field, cells),
  };
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < stride; column += 1) {
      if (row < grid.ny && column < grid.nx) continue;
      field.topDepthMm[row * stride + column] = thicknessMm;
      field.bottomRiseMm[row * stride + column] = thicknessMm;
    }
  }
  return field;
}

function markHanging(field: PlateField, cells: Uint8Array | null): void {
  const { grid, stride, pieceOf } = field;
  field.hanging = cells;
  for (let row = 0; row < grid.ny; row += 1) {
    for (let column = 0; column < grid.nx; column += 1) {
      const cell = row * stride + column;
      const hangs = cells?.[cell] === 1;
      const before = pieceOf[cell] as number;
      if (hangs ? before !== 0 : before !== HANGING_PIECE) continue;
      pieceOf[cell] = hangs ? HANGING_PIECE : 0;
      const [tx, ty] = [Math.floor(column / grid.tileCells), Math.floor(row / grid.tileCells)];
      const at = { x: column - tx * grid.tileCells, y: row - ty * grid.tileCells };
      markDirty(field, tx, ty, at, at);
    }
  }
}

/** Cuts closer to a border than this many cells change the shape of the tile beyond it. */
const BORDER_CELLS = 1;

/** Takes a patch over and notes which tiles have to be rebuilt. */
export function applyPatch(field: PlateField, patch: TilePatch): void {
  const { grid, stride } = field;
  const cells = grid.tileCells;
  const cellCount = cells * cells;
  const heatCells = grid.heatCellsPerTile;
  for (let n = 0; n < patch.tiles.length; n += 1) {
    const tile = patch.tiles[n] as number;
    const tx = tile % grid.tilesX;
    const ty = (tile - tx) / grid.tilesX;
    let changed = false;
    let low = { x: cells, y: cells };
    let high = { x: -1, y: -1 };
    for (let j = 0; j < cells; j += 1) {
      const row = ty * cells + j;
      if (row >= grid.ny) break;
      for (let i = 0; i < cells; i += 1) {
        const column = tx * cells + i;
        if (column >= grid.nx) break;
        const from = n * cellCount + j * cells + i;
        const to = row * stride + column;
        const depth = patch.topDepthMm[from] as number;
        const rise = patch.bottomRiseMm[from] as number;
        const own = (patch.pieceOf[from] as number) || (field.hanging?.[to] === 1 ? HANGING_PIECE : 0);
        if (own !== 0) field.rim[to] = 0;
        const piece = own === 0 && field.rim[to] === 1 ? (field.pieceOf[to] as number) : own;
        if (field.topDepthMm[to] === depth && field.bottomRiseMm[to] === rise && field.pieceOf[to] === piece) continue;
        field.topDepthMm[to] = depth;
        field.bottomRiseMm[to] = rise;
        field.pieceOf[to] = piece;
        changed = true;
        low = { x: Math.min(low.x, i), y: Math.min(low.y, j) };
        high = { x: Math.max(high.x, i), y: Math.max(high.y, j) };
      }
    }
    if (changed) markDirty(field, tx, ty, low, high);
    for (let j = 0; j < heatCells; j += 1) {
      for (let i = 0; i < heatCells; i += 1) {
        const to = (ty * heatCells + j) * field.heatWidth + tx * heatCells + i;
        field.heat[to] = glowByte(patch.temperatureC[(n * heatCells + j) * heatCells + i] as number);
      }
    }
    field.heatChanged = true;
  }
  if (!field.rimmed && !patch.pieceOf.some((piece) => piece !== 0)) return;
  field.rimmed = true;
  for (const tile of dropRims(field, patch.tiles)) {
    const last = grid.tileCells - 1;
    markDirty(field, tile % grid.tilesX, Math.floor(tile / grid.tilesX), { x: 0, y: 0 }, { x: last, y: last });
  }
}

function markDirty(
  field: PlateField,
  tx: number,
  ty: number,
  low: { x: number; y: number },
  high: { x: number; y: number },
): void {
  const { tilesX, tilesY, tileCells } = field.grid;
  const west = low.x < BORDER_CELLS ? -1 : 0;
  const east = high.x >= tileCells - BORDER_CELLS ? 1 : 0;
  const south = low.y < BORDER_CELLS ? -1 : 0;
  const north = high.y >= tileCells - BORDER_CELLS ? 1 : 0;
  for (let y = ty + south; y <= ty + north; y += 1) {
    for (let x = tx + west; x <= tx + east; x += 1) {
      if (x >= 0 && y >= 0 && x < tilesX && y < tilesY) field.dirty.add(y * tilesX + x);
    }
  }
}
