import type { EnthalpyTable } from '../materials/enthalpy-table.ts';

/**
 * Layered enthalpy field of the metal that remains. Index = (k * ny + iy) * nx + ix, k = 0 the top layer.
 * `heatJ` counts from ambient; `metal` is the share of the cell that still is metal.
 */
export interface HeatField {
  nx: number;
  ny: number;
  layers: number;
  cellMm: number;
  layerMm: number;
  heatJ: Float64Array;
  metal: Float64Array;
  /** Scratch of the conduction step: temperature and conductivity per cell. */
  riseK: Float64Array;
  conductivity: Float64Array;
}

export function createHeatField(nx: number, ny: number, layers: number, cellMm: number, layerMm: number): HeatField {
  const cells = nx * ny * layers;
  return {
    nx,
    ny,
    layers,
    cellMm,
    layerMm,
    heatJ: new Float64Array(cells),
    metal: new Float64Array(cells).fill(1),
    riseK: new Float64Array(cells),
    conductivity: new Float64Array(cells),
  };
}

/** Longest stable explicit step, s, with a margin of one fifth. */
export function stableStepS(field: HeatField, table: EnthalpyTable): number {
  const lateral = 2 / (field.cellMm * field.cellMm);
  const through = field.layers > 1 ? 1 / (field.layerMm * field.layerMm) : 0;
  return 0.4 / (table.greatestDiffusivityMm2PerS * (lateral + through));
}

/**
 * One explicit conduction step over the box ix0 <= ix < ix1, iy0 <= iy < iy1, all layers; heat crosses the box's rim too.
 * Between two cells flows k A dT / d, with the mean k and the smaller share of metal, so that every joule that leaves one
 * cell enters its neighbour. Faces to the outside are adiabatic.
 */
export function conduct(
  field: HeatField,
  table: EnthalpyTable,
  stepS: number,
  ix0: number,
  iy0: number,
  ix1: number,
  iy1: number,
): void {
  const { nx, ny, layers, cellMm, layerMm } = field;
  const left = ix0 > 0 ? ix0 - 1 : 0;
  const right = ix1 < nx ? ix1 + 1 : nx;
  const low = iy0 > 0 ? iy0 - 1 : 0;
  const high = iy1 < ny ? iy1 + 1 : ny;
  // Area over distance, halved for the mean of two conductivities.
  const lateral = 0.5 * stepS * layerMm;
  const through = (0.5 * stepS * cellMm * cellMm) / layerMm;
  for (let k = 0; k < layers; k++) {
    const plane = k * ny * nx;
    for (let iy = low; iy < high; iy++) readRow(field, table, plane + iy * nx + left, plane + iy * nx + right);
  }
  for (let k = 0; k < layers; k++) {
    const plane = k * ny * nx;
    for (let iy = low; iy < high; iy++) {
      const row = plane + iy * nx;
      const inside = iy >= iy0 && iy < iy1;
      if (inside) flow(field, row + left, row + right - 1, 1, lateral);
      if (iy + 1 < high && (inside || (iy + 1 >= iy0 && iy + 1 < iy1))) flow(field, row + ix0, row + ix1, nx, lateral);
      if (inside && k + 1 < layers) flow(field, row + ix0, row + ix1, nx * ny, through);
    }
  }
}

/** Temperature and conductivity of a run of cells. */
function readRow(field: HeatField, table: EnthalpyTable, from: number, to: number): void {
  const { heatJ, metal, riseK, conductivity, cellMm, layerMm } = field;
  const temperatures = table.temperatureK;
  const conductivities = table.conductivity;
  const perJ = table.perJ / (cellMm * cellMm * layerMm);
  const last = temperatures.length - 2;
  for (let cell = from; cell < to; cell++) {
    const share = metal[cell]!;
    if (share < 1e-9) {
      riseK[cell] = 0;
      conductivity[cell] = 0;
      continue;
    }
    const place = (heatJ[cell]! / share) * perJ;
    const entry = place < last ? (place > 0 ? place | 0 : 0) : last;
    const base = temperatures[entry]!;
    riseK[cell] = base + (place - entry) * (temperatures[entry + 1]! - base);
    conductivity[cell] = conductivities[entry]!;
  }
}

/** Flow between each cell of a run and the one `offset` further. */
function flow(field: HeatField, from: number, to: number, offset: number, factor: number): void {
  const { heatJ, metal, riseK, conductivity } = field;
  for (let cell = from; cell < to; cell++) {
    const next = cell + offset;
    const difference = riseK[cell]! - riseK[next]!;
    if (difference === 0) continue;
    const here = metal[cell]!;
    const there = metal[next]!;
    const joules = factor * (conductivity[cell]! + conductivity[next]!) * (here < there ? here : there) * difference;
    heatJ[cell] = heatJ[cell]! - joules;
    heatJ[next] = heatJ[next]! + joules;
  }
}
