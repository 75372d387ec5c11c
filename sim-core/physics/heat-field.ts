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
  /** Scratch too: 1 where a row of a layer is off ambient, at k * ny + iy. */
  rowWarm: Uint8Array;
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
    rowWarm: new Uint8Array(ny * layers),
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
  const { nx, ny, layers, cellMm, layerMm, rowWarm } = field;
  const left = ix0 > 0 ? ix0 - 1 : 0;
  const right = ix1 < nx ? ix1 + 1 : nx;
  const low = iy0 > 0 ? iy0 - 1 : 0;
  const high = iy1 < ny ? iy1 + 1 : ny;
  // Area over distance, halved for the mean of two conductivities.
  const lateral = 0.5 * stepS * layerMm;
  const through = (0.5 * stepS * cellMm * cellMm) / layerMm;
  for (let k = 0; k < layers; k++) {
    for (let iy = low; iy < high; iy++) {
      const row = (k * ny + iy) * nx;
      rowWarm[k * ny + iy] = readRow(field, table, row + left, row + right) ? 1 : 0;
    }
  }
  for (let k = 0; k < layers; k++) {
    const below = k + 1 < layers ? nx * ny : 0;
    for (let iy = low; iy < iy1; iy++) {
      const level = k * ny + iy;
      const row = level * nx;
      const beside = iy + 1 < high ? nx : 0;
      // Where a row, the next one and the one below are at ambient, nothing flows.
      if (rowWarm[level] === 0 && (beside === 0 || rowWarm[level + 1] === 0) && (below === 0 || rowWarm[level + ny] === 0))
        continue;
      if (iy >= iy0) flowRow(field, row + left, row + ix0, row + ix1, row + right, beside, below, lateral, through);
      else flowAcross(field, row + ix0, row + ix1, nx, lateral);
    }
  }
}

/** Temperature and conductivity of a run of cells; tells whether any of it is off ambient. */
function readRow(field: HeatField, table: EnthalpyTable, from: number, to: number): boolean {
  const { heatJ, metal, riseK, conductivity, cellMm, layerMm } = field;
  const temperatures = table.temperatureK;
  const conductivities = table.conductivity;
  const perJ = table.perJ / (cellMm * cellMm * layerMm);
  const last = temperatures.length - 2;
  let warm = false;
  for (let cell = from; cell < to; cell++) {
    const share = metal[cell]!;
    if (share < 1e-9) {
      riseK[cell] = 0;
      conductivity[cell] = 0;
      continue;
    }
    // Most cells are whole, and a division is slow.
    const held = share === 1 ? heatJ[cell]! : heatJ[cell]! / share;
    const place = held * perJ;
    const entry = place < last ? (place > 0 ? place | 0 : 0) : last;
    const base = temperatures[entry]!;
    const rise = base + (place - entry) * (temperatures[entry + 1]! - base);
    riseK[cell] = rise;
    conductivity[cell] = conductivities[entry]!;
    if (rise !== 0) warm = true;
  }
  return warm;
}

/**
 * All flows of one row of the box in one pass: along the row from the rim cell at `left` to the one before `right`, and
 * from each cell of `from` to `to` into the next row (`beside` further) and the layer under it (`below` further). An offset
 * of 0 stands for a face to the outside: no difference, no flow.
 */
function flowRow(
  field: HeatField,
  left: number,
  from: number,
  to: number,
  right: number,
  beside: number,
  below: number,
  lateral: number,
  through: number,
): void {
  const { heatJ, metal, riseK, conductivity } = field;
  let rise = riseK[from]!;
  let conducts = conductivity[from]!;
  let share = metal[from]!;
  /** What enters a cell from the one before it. */
  let entering = 0;
  if (left < from) {
    const there = metal[left]!;
    entering = lateral * (conductivity[left]! + conducts) * (there < share ? there : share) * (riseK[left]! - rise);
    heatJ[left] = heatJ[left]! - entering;
  }
  for (let cell = from; cell < to; cell++) {
    let held = heatJ[cell]! + entering;
    const next = cell + 1 < right ? cell + 1 : cell;
    const nextRise = riseK[next]!;
    const nextConducts = conductivity[next]!;
    const nextShare = metal[next]!;
    entering = lateral * (conducts + nextConducts) * (share < nextShare ? share : nextShare) * (rise - nextRise);
    held -= entering;
    const across = cell + beside;
    const acrossShare = metal[across]!;
    const sideways =
      lateral * (conducts + conductivity[across]!) * (share < acrossShare ? share : acrossShare) * (rise - riseK[across]!);
    held -= sideways;
    if (beside !== 0) heatJ[across] = heatJ[across]! + sideways;
    if (below !== 0) {
      const under = cell + below;
      const underShare = metal[under]!;
      const down =
        through * (conducts + conductivity[under]!) * (share < underShare ? share : underShare) * (rise - riseK[under]!);
      held -= down;
      heatJ[under] = heatJ[under]! + down;
    }
    heatJ[cell] = held;
    rise = nextRise;
    conducts = nextConducts;
    share = nextShare;
  }
  if (to < right) heatJ[to] = heatJ[to]! + entering;
}

/** Flow between each cell of a run and the one `offset` further. */
function flowAcross(field: HeatField, from: number, to: number, offset: number, factor: number): void {
  const { heatJ, metal, riseK, conductivity } = field;
  for (let cell = from; cell < to; cell++) {
    const next = cell + offset;
    const here = metal[cell]!;
    const there = metal[next]!;
    const joules =
      factor * (conductivity[cell]! + conductivity[next]!) * (here < there ? here : there) * (riseK[cell]! - riseK[next]!);
    heatJ[cell] = heatJ[cell]! - joules;
    heatJ[next] = heatJ[next]! + joules;
  }
}
