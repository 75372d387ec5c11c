import { floor } from '../math/elementary.ts';
import type { PointMm, SimulationSetup } from '../run/types.ts';
import { MODEL } from './model-constants.ts';

/** Cells of margin without metal around the plate: one tile. */
export const TILE_CELLS = 32;
/** Metal cells along a heat cell, as a power of two. */
export const METAL_CELLS_SHIFT = 2;

/**
 * How much metal is gone, 0 to 1, of every cell of every layer: the layered field of the design.
 * Index = (iy * nx + ix) * layers + k, k = 0 the top layer. A margin of one tile around the plate holds no metal.
 */
export interface MetalField {
  nx: number;
  ny: number;
  layers: number;
  cellMm: number;
  layerMm: number;
  /** Plate coordinates of the corner of cell (0, 0), mm. */
  x0Mm: number;
  y0Mm: number;
  tilesX: number;
  tilesY: number;
  gone: Float64Array;
  /** Number of the fallen piece that a column belongs to, 0 while in place. Index = iy * nx + ix. */
  pieceOf: Uint8Array;
  /**
   * Layers from the top of a column that are known to be wholly gone: what rays have found out, at most the truth, 0 where
   * nothing is known. No part of the state: whoever puts metal back clears it.
   */
  openedTo: Uint8Array;
}

/** Layers for a plate: about half a millimetre each, at least 8, a multiple of the heat layer's. */
export function layersFor(thicknessMm: number): number {
  const group = MODEL.layersPerHeatLayer;
  const wanted = floor(thicknessMm / MODEL.layerMm / group + 0.5) * group;
  return wanted < 2 * group ? 2 * group : wanted;
}

export function createMetalField(setup: SimulationSetup, cellMm: number): MetalField {
  const layers = layersFor(setup.thicknessMm);
  const tilesX = floor((setup.lengthMm / cellMm + TILE_CELLS - 1) / TILE_CELLS + 1e-9) + 2;
  const tilesY = floor((setup.widthMm / cellMm + TILE_CELLS - 1) / TILE_CELLS + 1e-9) + 2;
  const nx = tilesX * TILE_CELLS;
  const ny = tilesY * TILE_CELLS;
  const field: MetalField = {
    nx,
    ny,
    layers,
    cellMm,
    layerMm: setup.thicknessMm / layers,
    x0Mm: -TILE_CELLS * cellMm,
    y0Mm: -TILE_CELLS * cellMm,
    tilesX,
    tilesY,
    gone: new Float64Array(nx * ny * layers),
    pieceOf: new Uint8Array(nx * ny),
    openedTo: new Uint8Array(nx * ny),
  };
  openOutside(field, setup);
  for (const outline of setup.cutouts ?? []) openInside(field, outline);
  return field;
}

function openColumn(field: MetalField, ix: number, iy: number): void {
  const start = (iy * field.nx + ix) * field.layers;
  field.gone.fill(1, start, start + field.layers);
}

function openOutside(field: MetalField, setup: SimulationSetup): void {
  for (let iy = 0; iy < field.ny; iy++) {
    const y = field.y0Mm + (iy + 0.5) * field.cellMm;
    for (let ix = 0; ix < field.nx; ix++) {
      const x = field.x0Mm + (ix + 0.5) * field.cellMm;
      if (x < 0 || x > setup.lengthMm || y < 0 || y > setup.widthMm) openColumn(field, ix, iy);
    }
  }
}

/** Even-odd rule on cell centres. */
function openInside(field: MetalField, outline: PointMm[]): void {
  for (let iy = 0; iy < field.ny; iy++) {
    const y = field.y0Mm + (iy + 0.5) * field.cellMm;
    for (let ix = 0; ix < field.nx; ix++) {
      if (contains(outline, field.x0Mm + (ix + 0.5) * field.cellMm, y)) openColumn(field, ix, iy);
    }
  }
}

function contains(outline: PointMm[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i]!;
    const b = outline[j]!;
    if (a.yMm > y !== b.yMm > y && x < ((b.xMm - a.xMm) * (y - a.yMm)) / (b.yMm - a.yMm) + a.xMm) inside = !inside;
  }
  return inside;
}
