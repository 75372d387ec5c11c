import { temperatureAt } from '../materials/enthalpy-table.ts';
import { AMBIENT_C } from '../materials/material.ts';
import { TILE_CELLS } from '../physics/metal-field.ts';
import type { SimulationState } from './simulation-state.ts';
import type { FieldGrid, PointMm, TileView } from './types.ts';

/** Column of the metal field at a place; -1 beside the plate. */
export function columnUnder(state: SimulationState, place: PointMm | null): number {
  const { metal, setup } = state;
  if (!place || !(place.xMm >= 0 && place.xMm < setup.lengthMm && place.yMm >= 0 && place.yMm < setup.widthMm)) return -1;
  const ix = ((place.xMm - metal.x0Mm) / metal.cellMm) | 0;
  const iy = ((place.yMm - metal.y0Mm) / metal.cellMm) | 0;
  return iy * metal.nx + ix;
}

/** Open where no layer along the axis holds more than a twentieth of its metal. */
export function isOpen(state: SimulationState, xMm: number, yMm: number, leanTanX: number, leanTanY: number): boolean {
  const { metal } = state;
  for (let k = 0; k < metal.layers; k++) {
    const depth = (k + 0.5) * metal.layerMm;
    const fx = (xMm - leanTanX * depth - metal.x0Mm) / metal.cellMm;
    const fy = (yMm - leanTanY * depth - metal.y0Mm) / metal.cellMm;
    if (fx < 0 || fy < 0 || fx >= metal.nx || fy >= metal.ny) continue;
    const column = (fy | 0) * metal.nx + (fx | 0);
    if (metal.gone[column * metal.layers + k]! < 0.95 && metal.pieceOf[column] === 0) return false;
  }
  return true;
}

export function readTile(state: SimulationState, tile: number, out: TileView): void {
  const { metal, heat, table } = state;
  const ty = (tile / metal.tilesX) | 0;
  const tx = tile - ty * metal.tilesX;
  if (!(tile >= 0 && ty < metal.tilesY)) throw new RangeError(`There is no tile ${tile}.`);
  const { layers, layerMm } = metal;
  for (let y = 0; y < TILE_CELLS; y++) {
    for (let x = 0; x < TILE_CELLS; x++) {
      const column = (ty * TILE_CELLS + y) * metal.nx + tx * TILE_CELLS + x;
      const base = column * layers;
      let k = 0;
      while (k < layers && metal.gone[base + k]! >= 1) k++;
      const at = y * TILE_CELLS + x;
      out.topDepthMm[at] = k < layers ? (k + metal.gone[base + k]!) * layerMm : layers * layerMm;
      let up = layers - 1;
      while (up >= 0 && metal.gone[base + up]! >= 1) up--;
      // The lowest metal of a half-gone cell hangs from its top or stands on its floor; a cut from above leaves the floor.
      out.bottomRiseMm[at] = up >= 0 ? (layers - 1 - up) * layerMm : layers * layerMm;
      out.pieceOf[at] = metal.pieceOf[column]!;
    }
  }
  const side = heat.nx / metal.tilesX;
  const volume = heat.cellMm * heat.cellMm * heat.layerMm;
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      let hottest = 0;
      for (let k = 0; k < heat.layers; k++) {
        const cell = (k * heat.ny + ty * side + y) * heat.nx + tx * side + x;
        if (heat.metal[cell]! < 1e-6) continue;
        const rise = temperatureAt(table, heat.heatJ[cell]! / (heat.metal[cell]! * volume));
        if (rise > hottest) hottest = rise;
      }
      out.temperatureC[y * side + x] = AMBIENT_C + hottest;
    }
  }
}

export function gridOf(state: SimulationState): FieldGrid {
  const { metal, heat } = state;
  return {
    cellMm: metal.cellMm,
    nx: metal.nx,
    ny: metal.ny,
    layers: metal.layers,
    layerMm: metal.layerMm,
    x0Mm: metal.x0Mm,
    y0Mm: metal.y0Mm,
    tileCells: TILE_CELLS,
    tilesX: metal.tilesX,
    tilesY: metal.tilesY,
    heatCellsPerTile: heat.nx / metal.tilesX,
  };
}
