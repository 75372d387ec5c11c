import { clamp, floor } from '../math/elementary.ts';
import { contains } from '../math/plane.ts';
import type { WholeSetup } from '../run/own-setup.ts';
import type { PointMm, SimulationSetup } from '../run/types.ts';
import { MODEL } from './model-constants.ts';

/** Cells of margin without metal around the plate: one tile. */
export const TILE_CELLS = 32;
/** A node of the search for loose pieces: cells along it, layers through it; nodes along a tile. */
export const NODE_CELLS = 2;
export const NODE_LAYERS = 4;
export const TILE_NODES = TILE_CELLS / NODE_CELLS;
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
  /** Nodes of the search for loose pieces, (level * ny + iy) * nx + ix in nodes: 1 where there was no metal at the last look. */
  openNodes: Uint8Array;
  /** 1 where a column held no metal at the start. Never changes. */
  openAtStart: Uint8Array;
  /** Layers of air between two stacked plates: from gapFrom to before gapTo. */
  gapFrom: number;
  gapTo: number;
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

export function createMetalField(setup: WholeSetup, cellMm: number): MetalField {
  const layers = layersFor(setup.thicknessMm);
  const tilesX = floor((setup.lengthMm / cellMm + TILE_CELLS - 1) / TILE_CELLS + 1e-9) + 2;
  const tilesY = floor((setup.widthMm / cellMm + TILE_CELLS - 1) / TILE_CELLS + 1e-9) + 2;
  const nx = tilesX * TILE_CELLS;
  const ny = tilesY * TILE_CELLS;
  const { fromMm, toMm } = setup.airGap;
  const gapFrom = floor((fromMm / setup.thicknessMm) * layers + 0.5);
  const gapTo = floor((toMm / setup.thicknessMm) * layers + 0.5);
  const field: MetalField = {
    gapFrom,
    // A gap thinner than a layer is one layer.
    gapTo: toMm > fromMm && gapTo <= gapFrom ? gapFrom + 1 : gapTo,
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
    openNodes: new Uint8Array(((nx / NODE_CELLS) * (ny / NODE_CELLS) * layers) / NODE_LAYERS),
    openAtStart: new Uint8Array(nx * ny),
    openedTo: new Uint8Array(nx * ny),
  };
  openOutside(field, setup);
  for (const outline of setup.cutouts ?? []) openInside(field, outline);
  for (let tile = 0; tile < tilesX * tilesY; tile++) resetOpenNodes(field, tile);
  if (field.gapTo > field.gapFrom) for (let column = 0; column < nx * ny; column++) openGap(field, column);
  return field;
}

/** Takes the metal out of a column where the air between stacked plates is. */
export function openGap(field: MetalField, column: number): void {
  field.gone.fill(1, column * field.layers + field.gapFrom, column * field.layers + field.gapTo);
}

/** The nodes of a tile as they are before the run. */
export function resetOpenNodes(field: MetalField, tile: number): void {
  const { openNodes, openAtStart, tilesX } = field;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  const nx = field.nx / NODE_CELLS;
  const plane = nx * (field.ny / NODE_CELLS);
  for (let y = ty * TILE_NODES; y < (ty + 1) * TILE_NODES; y++) {
    const from = y * nx + tx * TILE_NODES;
    for (let n = 0; n < TILE_NODES; n++) {
      openNodes[from + n] = openAtStart[y * NODE_CELLS * field.nx + (tx * TILE_NODES + n) * NODE_CELLS]!;
    }
    for (let at = plane; at < openNodes.length; at += plane) openNodes.copyWithin(at + from, from, from + TILE_NODES);
  }
}

/** Opens whole columns of a row, from ix to before ixTo. */
function openColumns(field: MetalField, iy: number, ix: number, ixTo: number): void {
  if (ix >= ixTo) return;
  const row = iy * field.nx;
  field.gone.fill(1, (row + ix) * field.layers, (row + ixTo) * field.layers);
  field.openAtStart.fill(1, row + ix, row + ixTo);
}

/** Opens what lies outside the plate: cells whose middle does. */
function openOutside(field: MetalField, setup: SimulationSetup): void {
  const { nx, ny, cellMm, x0Mm, y0Mm } = field;
  let fromX = 0;
  while (x0Mm + (fromX + 0.5) * cellMm < 0) fromX++;
  let toX = nx;
  while (x0Mm + (toX - 0.5) * cellMm > setup.lengthMm) toX--;
  for (let iy = 0; iy < ny; iy++) {
    const y = y0Mm + (iy + 0.5) * cellMm;
    if (y < 0 || y > setup.widthMm) openColumns(field, iy, 0, nx);
    else {
      openColumns(field, iy, 0, fromX);
      openColumns(field, iy, toX, nx);
    }
  }
}

/** Even-odd rule on cell centres. */
function openInside(field: MetalField, outline: PointMm[]): void {
  const { nx, ny, cellMm, x0Mm, y0Mm } = field;
  let [lowX, highX, lowY, highY] = [1e9, -1e9, 1e9, -1e9];
  for (const { xMm, yMm } of outline) {
    if (xMm < lowX) lowX = xMm;
    if (xMm > highX) highX = xMm;
    if (yMm < lowY) lowY = yMm;
    if (yMm > highY) highY = yMm;
  }
  const ixTo = clamp(floor((highX - x0Mm) / cellMm) + 1, 0, nx);
  const iyTo = clamp(floor((highY - y0Mm) / cellMm) + 1, 0, ny);
  for (let iy = clamp(floor((lowY - y0Mm) / cellMm) - 1, 0, ny); iy < iyTo; iy++) {
    const y = y0Mm + (iy + 0.5) * cellMm;
    for (let ix = clamp(floor((lowX - x0Mm) / cellMm) - 1, 0, nx); ix < ixTo; ix++) {
      if (contains(outline, x0Mm + (ix + 0.5) * cellMm, y)) openColumns(field, iy, ix, ix + 1);
    }
  }
}

/** Share of metal gone at a place, 0 to 1, 1 outside the plate; columns of fallen pieces count as gone where they are told to. */
export function goneAt(metal: MetalField, xMm: number, yMm: number, depthMm: number, fallenIsGone: boolean): number {
  const fx = (xMm - metal.x0Mm) / metal.cellMm;
  const fy = (yMm - metal.y0Mm) / metal.cellMm;
  const k = (depthMm / metal.layerMm) | 0;
  if (fx < 0 || fy < 0 || fx >= metal.nx || fy >= metal.ny || depthMm < 0 || k >= metal.layers) return 1;
  const column = (fy | 0) * metal.nx + (fx | 0);
  return fallenIsGone && metal.pieceOf[column]! > 0 ? 1 : metal.gone[column * metal.layers + k]!;
}
