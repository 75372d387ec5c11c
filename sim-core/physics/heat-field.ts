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
  /** Scratch too: the stretch of a row, k * ny + iy, outside which all its cells are whole; from nx to 0 where all are. */
  partialFrom: Int32Array;
  partialTo: Int32Array;
  /**
   * Of the step: area over distance times time, halved for the mean of two conductivities, along the plate and through it;
   * entries of the table per J of a whole cell; what the row under way hands to its next cell, J. A record, because numbers
   * handed to a function as arguments would be allocated.
   */
  step: { lateral: number; through: number; perJ: number; entering: number };
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
    partialFrom: new Int32Array(ny * layers),
    partialTo: new Int32Array(ny * layers),
    step: { lateral: 0, through: 0, perJ: 0, entering: 0 },
  };
}

/** Longest stable explicit step, s, with a margin of one fifth. */
export function stableStepS(field: HeatField, table: EnthalpyTable): number {
  const lateral = 2 / (field.cellMm * field.cellMm);
  const through = field.layers > 1 ? 1 / (field.layerMm * field.layerMm) : 0;
  return 0.4 / (table.greatestDiffusivityMm2PerS * (lateral + through));
}

/** Prepares steps of stepS seconds in a metal. */
export function setHeatStep(field: HeatField, table: EnthalpyTable, stepS: number): void {
  const { cellMm, layerMm, step } = field;
  step.lateral = 0.5 * stepS * layerMm;
  step.through = (0.5 * stepS * cellMm * cellMm) / layerMm;
  step.perJ = table.perJ / (cellMm * cellMm * layerMm);
}

/** One step of stepS seconds: `setHeatStep` and `stepConduction`. */
export function conduct(
  field: HeatField,
  table: EnthalpyTable,
  stepS: number,
  ix0: number,
  iy0: number,
  ix1: number,
  iy1: number,
): void {
  setHeatStep(field, table, stepS);
  stepConduction(field, table, ix0, iy0, ix1, iy1);
}

/**
 * One explicit conduction step over the box ix0 <= ix < ix1, iy0 <= iy < iy1, all layers; heat crosses the box's rim too.
 * Between two cells flows k A dT / d, with the mean k and the smaller share of metal, so that every joule that leaves one
 * cell enters its neighbour. Faces to the outside are adiabatic.
 */
export function stepConduction(field: HeatField, table: EnthalpyTable, ix0: number, iy0: number, ix1: number, iy1: number): void {
  const { nx, ny, layers } = field;
  const left = ix0 > 0 ? ix0 - 1 : 0;
  const right = ix1 < nx ? ix1 + 1 : nx;
  const low = iy0 > 0 ? iy0 - 1 : 0;
  const high = iy1 < ny ? iy1 + 1 : ny;
  for (let k = 0; k < layers; k++) {
    for (let iy = low; iy < high; iy++) readRow(field, table, k * ny + iy, left, right);
  }
  for (let k = 0; k < layers; k++) {
    const below = k + 1 < layers ? ny : 0;
    for (let iy = low; iy < iy1; iy++) {
      const beside = iy + 1 < high ? 1 : 0;
      if (iy >= iy0) flowRow(field, k * ny + iy, beside, below, left, ix0, ix1, right);
      else flowAcross(field, (k * ny + iy) * nx + ix0, (k * ny + iy) * nx + ix1);
    }
  }
}

/** Temperature and conductivity of cells left <= ix < right of a row, and its stretch that is not whole. */
function readRow(field: HeatField, table: EnthalpyTable, row: number, left: number, right: number): void {
  const { nx, metal, partialFrom, partialTo } = field;
  const start = row * nx;
  const from = readWhole(field, table, start + left, start + right) - start;
  if (from === right) {
    partialFrom[row] = nx;
    partialTo[row] = 0;
    return;
  }
  let to = right;
  while (metal[start + to - 1] === 1) to--;
  partialFrom[row] = from;
  partialTo[row] = to;
  readPartial(field, table, start + from, start + to);
  readWhole(field, table, start + to, start + right);
}

/** Reads whole cells up to the first that is not, or to the end; tells how far it came. */
function readWhole(field: HeatField, table: EnthalpyTable, from: number, to: number): number {
  const { heatJ, metal, riseK, conductivity } = field;
  const { temperatureK: temperatures, conductivity: conductivities } = table;
  const { perJ } = field.step;
  const last = temperatures.length - 2;
  let cell = from;
  for (; cell < to && metal[cell] === 1; cell++) {
    const place = heatJ[cell]! * perJ;
    const entry = place < last ? (place > 0 ? place | 0 : 0) : last;
    const base = temperatures[entry]!;
    riseK[cell] = base + (place - entry) * (temperatures[entry + 1]! - base);
    conductivity[cell] = conductivities[entry]!;
  }
  return cell;
}

function readPartial(field: HeatField, table: EnthalpyTable, from: number, to: number): void {
  const { heatJ, metal, riseK, conductivity } = field;
  const { temperatureK: temperatures, conductivity: conductivities } = table;
  const { perJ } = field.step;
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

/**
 * All flows of one row of the box: along it from the rim cell at `left` to the one before `right`, and from each cell of
 * `from` to `to` into the row `beside` further and the one `below` further (the layer under it); 0 stands for a face to the
 * outside. Where this row and those are whole, the shares of metal need not be looked at.
 */
function flowRow(
  field: HeatField,
  row: number,
  beside: number,
  below: number,
  left: number,
  from: number,
  to: number,
  right: number,
): void {
  const { nx, heatJ, metal, riseK, conductivity, partialFrom, partialTo, step } = field;
  const start = row * nx;
  let low = partialFrom[row]! - 1;
  let high = partialTo[row]!;
  if (partialFrom[row + beside]! < low) low = partialFrom[row + beside]!;
  if (partialTo[row + beside]! > high) high = partialTo[row + beside]!;
  if (partialFrom[row + below]! < low) low = partialFrom[row + below]!;
  if (partialTo[row + below]! > high) high = partialTo[row + below]!;
  step.entering = 0;
  if (left < from) {
    const rim = start + left;
    const here = metal[rim]!;
    const there = metal[rim + 1]!;
    const share = here < there ? here : there;
    step.entering = step.lateral * (conductivity[rim]! + conductivity[rim + 1]!) * share * (riseK[rim]! - riseK[rim + 1]!);
    heatJ[rim] = heatJ[rim]! - step.entering;
  }
  // The last cell of the grid has no next one, which only the careful pass looks after.
  const whole = to < right ? to : to - 1;
  const careful = low < from ? from : low < whole ? low : whole;
  const again = high < careful ? careful : high < whole ? high : whole;
  const across = beside * nx;
  const under = below * nx;
  if (from < careful) flowWhole(field, start + from, start + careful, across, under);
  if (careful < again) flowPartial(field, start + careful, start + again, start + right - 1, across, under);
  if (again < whole) flowWhole(field, start + again, start + whole, across, under);
  if (to < right) heatJ[start + to] = heatJ[start + to]! + step.entering;
  else flowPartial(field, start + whole, start + to, start + right - 1, across, under);
}

/** Flows out of whole cells whose neighbours are whole. The cell itself is written last: a face to the outside leads to itself. */
function flowWhole(field: HeatField, from: number, to: number, beside: number, below: number): void {
  const { heatJ, riseK, conductivity, step } = field;
  const { lateral, through } = step;
  let entering = step.entering;
  let rise = riseK[from]!;
  let conducts = conductivity[from]!;
  for (let cell = from; cell < to; cell++) {
    let held = heatJ[cell]! + entering;
    const nextRise = riseK[cell + 1]!;
    const nextConducts = conductivity[cell + 1]!;
    entering = lateral * (conducts + nextConducts) * (rise - nextRise);
    held -= entering;
    const across = cell + beside;
    const sideways = lateral * (conducts + conductivity[across]!) * (rise - riseK[across]!);
    held -= sideways;
    heatJ[across] = heatJ[across]! + sideways;
    if (below !== 0) {
      const under = cell + below;
      const down = through * (conducts + conductivity[under]!) * (rise - riseK[under]!);
      held -= down;
      heatJ[under] = heatJ[under]! + down;
    }
    heatJ[cell] = held;
    rise = nextRise;
    conducts = nextConducts;
  }
  step.entering = entering;
}

/** Flows out of cells of which some are not whole; `lastCell` is the last that has a next one at all or is the end itself. */
function flowPartial(field: HeatField, from: number, to: number, lastCell: number, beside: number, below: number): void {
  const { heatJ, metal, riseK, conductivity, step } = field;
  const { lateral, through } = step;
  let entering = step.entering;
  for (let cell = from; cell < to; cell++) {
    const rise = riseK[cell]!;
    const conducts = conductivity[cell]!;
    const share = metal[cell]!;
    let held = heatJ[cell]! + entering;
    const next = cell < lastCell ? cell + 1 : cell;
    const nextShare = metal[next]!;
    entering = lateral * (conducts + conductivity[next]!) * (share < nextShare ? share : nextShare) * (rise - riseK[next]!);
    held -= entering;
    const across = cell + beside;
    const acrossShare = metal[across]!;
    const sideways =
      lateral * (conducts + conductivity[across]!) * (share < acrossShare ? share : acrossShare) * (rise - riseK[across]!);
    held -= sideways;
    heatJ[across] = heatJ[across]! + sideways;
    if (below !== 0) {
      const under = cell + below;
      const underShare = metal[under]!;
      const down =
        through * (conducts + conductivity[under]!) * (share < underShare ? share : underShare) * (rise - riseK[under]!);
      held -= down;
      heatJ[under] = heatJ[under]! + down;
    }
    heatJ[cell] = held;
  }
  step.entering = entering;
}

/** Flows from a rim row into the first row of the box. */
function flowAcross(field: HeatField, from: number, to: number): void {
  const { nx, heatJ, metal, riseK, conductivity, step } = field;
  const { lateral } = step;
  for (let cell = from; cell < to; cell++) {
    const next = cell + nx;
    const here = metal[cell]!;
    const there = metal[next]!;
    const joules =
      lateral * (conductivity[cell]! + conductivity[next]!) * (here < there ? here : there) * (riseK[cell]! - riseK[next]!);
    heatJ[cell] = heatJ[cell]! - joules;
    heatJ[next] = heatJ[next]! + joules;
  }
}
