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
  field: HeatField, table: EnthalpyTable, stepS: number, ix0: number, iy0: number, ix1: number, iy1: number,
): void {
  const { nx, ny, layers, cellMm, layerMm, heatJ, metal, riseK, conductivity } = field;
  const left = ix0 > 0 ? ix0 - 1 : 0;
  const right = ix1 < nx ? ix1 + 1 : nx;
  const low = iy0 > 0 ? iy0 - 1 : 0;
  const high = iy1 < ny ? iy1 + 1 : ny;
  const volume = cellMm * cellMm * layerMm;
  const perJ = table.perJ;
  const temperatures = table.temperatureK;
  const conductivities = table.conductivity;
  const last = temperatures.length - 2;
  for (let k = 0; k < layers; k++) {
    for (let iy = low; iy < high; iy++) {
      const row = (k * ny + iy) * nx;
      for (let cell = row + left, end = row + right; cell < end; cell++) {
        const share = metal[cell]!;
        if (share < 1e-9) {
          riseK[cell] = 0;
          conductivity[cell] = 0;
          continue;
        }
        const place = (heatJ[cell]! / (share * volume)) * perJ;
        const entry = place < last ? (place > 0 ? place | 0 : 0) : last;
        const base = temperatures[entry]!;
        riseK[cell] = base + (place - entry) * (temperatures[entry + 1]! - base);
        conductivity[cell] = conductivities[entry]!;
      }
    }
  }
  // Area over distance, halved for the mean of two conductivities.
  const lateral = (0.5 * stepS * cellMm * layerMm) / cellMm;
  const through = (0.5 * stepS * cellMm * cellMm) / layerMm;
  const plane = nx * ny;
  for (let k = 0; k < layers; k++) {
    for (let iy = low; iy < high; iy++) {
      const row = (k * ny + iy) * nx;
      const insideY = iy >= iy0 && iy < iy1;
      const downRow = iy + 1 < high && (insideY || (iy + 1 >= iy0 && iy + 1 < iy1));
      for (let ix = left; ix < right; ix++) {
        const cell = row + ix;
        const share = metal[cell]!;
        if (share < 1e-9) continue;
        const rise = riseK[cell]!;
        const here = conductivity[cell]!;
        const insideX = ix >= ix0 && ix < ix1;
        if (insideY && ix + 1 < right && (insideX || (ix + 1 >= ix0 && ix + 1 < ix1))) {
          const next = cell + 1;
          const other = metal[next]!;
          const flow = lateral * (here + conductivity[next]!) * (other < share ? other : share) * (rise - riseK[next]!);
          heatJ[cell] = heatJ[cell]! - flow;
          heatJ[next] = heatJ[next]! + flow;
        }
        if (downRow && insideX) {
          const next = cell + nx;
          const other = metal[next]!;
          const flow = lateral * (here + conductivity[next]!) * (other < share ? other : share) * (rise - riseK[next]!);
          heatJ[cell] = heatJ[cell]! - flow;
          heatJ[next] = heatJ[next]! + flow;
        }
        if (k + 1 < layers && insideX && insideY) {
          const next = cell + plane;
          const other = metal[next]!;
          const flow = through * (here + conductivity[next]!) * (other < share ? other : share) * (rise - riseK[next]!);
          heatJ[cell] = heatJ[cell]! - flow;
          heatJ[next] = heatJ[next]! + flow;
        }
      }
    }
  }
}
