import type { EnthalpyTable } from '../materials/enthalpy-table.ts';
import { TICK_HZ } from '../run/types.ts';
import { type HeatField, setHeatStep, stableStepS, stepConduction } from './heat-field.ts';

/**
 * Conduction at a cost that does not grow: the nine tiles around the jet are stepped exactly; of the other warm tiles a few
 * are visited per step, relax toward their own means at the rate of their slowest mode, and exchange heat with their
 * neighbours' means. Both are conservative: what leaves one cell enters another.
 */
export interface HeatWindow {
  tilesX: number;
  tilesY: number;
  /** Heat cells along a tile. */
  side: number;
  /** Ticks between steps, and explicit steps each time. */
  strideTicks: number;
  steps: number;
  /** Per tile: 1 once warm; the tick up to which it has been stepped. */
  warm: Uint8Array;
  steppedTo: Int32Array;
  /** Far tiles visited in the last step: one for metals that conduct like steel, more for those that conduct better. */
  visited: Int32Array;
  /** Warm tiles in the order in which they became warm. */
  list: Int32Array;
  cursor: { count: number; next: number; tileX: number; tileY: number };
}

/** Diffusivity that one visit a step keeps up with, mm2/s. Numerical: steel at room temperature. */
const DIFFUSIVITY_PER_VISIT_MM2_PER_S = 16;

export function createHeatWindow(field: HeatField, table: EnthalpyTable, tilesX: number, tilesY: number): HeatWindow {
  const tickS = 1 / TICK_HZ;
  const stable = stableStepS(field, table);
  let strideTicks = 1;
  while (strideTicks < 4 && (strideTicks + 1) * tickS <= stable) strideTicks++;
  let visits = 1;
  while (visits < 8 && visits * DIFFUSIVITY_PER_VISIT_MM2_PER_S < table.greatestDiffusivityMm2PerS) visits++;
  let steps = 1;
  while ((strideTicks * tickS) / steps > stable) steps++;
  setHeatStep(field, table, (strideTicks * tickS) / steps);
  return {
    tilesX,
    tilesY,
    side: field.nx / tilesX,
    strideTicks,
    steps,
    warm: new Uint8Array(tilesX * tilesY),
    steppedTo: new Int32Array(tilesX * tilesY),
    visited: new Int32Array(visits).fill(-1),
    list: new Int32Array(tilesX * tilesY),
    cursor: { count: 0, next: 0, tileX: -9, tileY: -9 },
  };
}

/**
 * Steps the heat, called after every `strideTicks`-th tick. (tileX, tileY) is the tile under the jet, `lit` whether the arc
 * heats it. Once any tile is warm, `visited` names the far tiles visited, -1 for none.
 */
export function stepHeat(
  window: HeatWindow,
  field: HeatField,
  table: EnthalpyTable,
  tick: number,
  tileX: number,
  tileY: number,
  lit: boolean,
): void {
  const { cursor, tilesX, tilesY, side } = window;
  if (lit) warmAround(window, field, table, tick, tileX, tileY);
  if (cursor.count === 0) return;
  if (cursor.tileX > -9) {
    const x0 = cursor.tileX > 0 ? cursor.tileX - 1 : 0;
    const y0 = cursor.tileY > 0 ? cursor.tileY - 1 : 0;
    const x1 = cursor.tileX + 2 < tilesX ? cursor.tileX + 2 : tilesX;
    const y1 = cursor.tileY + 2 < tilesY ? cursor.tileY + 2 : tilesY;
    // The tiles of the margin hold no metal, so nothing flows there.
    const fromX = x0 > 0 ? x0 * side : side;
    const fromY = y0 > 0 ? y0 * side : side;
    const toX = x1 < tilesX ? x1 * side : (tilesX - 1) * side;
    const toY = y1 < tilesY ? y1 * side : (tilesY - 1) * side;
    for (let n = 0; n < window.steps && fromX < toX && fromY < toY; n++) stepConduction(field, table, fromX, fromY, toX, toY);
    for (let ty = y0; ty < y1; ty++) for (let tx = x0; tx < x1; tx++) window.steppedTo[ty * tilesX + tx] = tick;
  }
  for (let n = 0; n < window.visited.length; n++) window.visited[n] = visitNext(window, field, table, tick);
}

function warmAround(
  window: HeatWindow,
  field: HeatField,
  table: EnthalpyTable,
  tick: number,
  tileX: number,
  tileY: number,
): void {
  const { cursor, tilesX, tilesY } = window;
  if (cursor.tileX === tileX && cursor.tileY === tileY) return;
  // The tiles around the nine take up what flows over their rim, so they count as warm too.
  for (let ty = tileY - 2; ty <= tileY + 2; ty++) {
    for (let tx = tileX - 2; tx <= tileX + 2; tx++) {
      if (tx < 0 || ty < 0 || tx >= tilesX || ty >= tilesY) continue;
      const tile = ty * tilesX + tx;
      if (window.warm[tile] === 0) {
        window.warm[tile] = 1;
        window.list[cursor.count++] = tile;
        window.steppedTo[tile] = tick;
      } else if (!inWindow(window, tx, ty)) relax(window, field, table, tile, tick);
    }
  }
  cursor.tileX = tileX;
  cursor.tileY = tileY;
}

function inWindow(window: HeatWindow, tx: number, ty: number): boolean {
  const dx = tx - window.cursor.tileX;
  const dy = ty - window.cursor.tileY;
  return dx >= -1 && dx <= 1 && dy >= -1 && dy <= 1;
}

function visitNext(window: HeatWindow, field: HeatField, table: EnthalpyTable, tick: number): number {
  const { cursor, list, tilesX } = window;
  for (let tries = 0; tries < 10; tries++) {
    if (cursor.next >= cursor.count) cursor.next = 0;
    const tile = list[cursor.next++]!;
    const ty = (tile / tilesX) | 0;
    if (inWindow(window, tile - ty * tilesX, ty)) continue;
    relax(window, field, table, tile, tick);
    return tile;
  }
  return -1;
}

/** Mean enthalpy of a tile, J/mm3, and its metal, in cells. */
const mean = { jPerMm3: 0, cells: 0 };

/** The four tiles beside one, -1 where there is none to trade with: their heat, J, and metal, in cells. Reused. */
const around = { tile: new Int32Array(4), heatJ: new Float64Array(4), cells: new Float64Array(4) };

/**
 * Of the tile that trades with its neighbours: its metal, in cells, its mean enthalpy, J/mm3, and the part of a difference
 * that flows; what a whole cell gets, J, and its heat afterwards. A record, because numbers handed to a function as arguments
 * would be allocated.
 */
const trade = { cells: 0, jPerMm3: 0, part: 0, jPerCell: 0, heatJ: 0 };

function measure(field: HeatField, x0: number, y0: number, side: number): void {
  const { heatJ, metal } = field;
  let heat = 0;
  let cells = 0;
  for (let k = 0; k < field.layers; k++) {
    for (let iy = y0; iy < y0 + side; iy++) {
      const row = (k * field.ny + iy) * field.nx + x0;
      for (let cell = row; cell < row + side; cell++) {
        heat += heatJ[cell]!;
        cells += metal[cell]!;
      }
    }
  }
  const volume = field.cellMm * field.cellMm * field.layerMm;
  mean.cells = cells;
  mean.jPerMm3 = cells > 1e-6 ? heat / (cells * volume) : 0;
}

/** Sums over the tiles beside one, all four in one pass: each sum waits for its own last addition only. */
function measureAround(window: HeatWindow, field: HeatField, tile: number): void {
  const { side, tilesX, tilesY } = window;
  const { nx, ny, layers, heatJ, metal } = field;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  around.tile[0] = tx > 0 && !inWindow(window, tx - 1, ty) ? tile - 1 : -1;
  around.tile[1] = tx + 1 < tilesX && !inWindow(window, tx + 1, ty) ? tile + 1 : -1;
  around.tile[2] = ty > 0 && !inWindow(window, tx, ty - 1) ? tile - tilesX : -1;
  around.tile[3] = ty + 1 < tilesY && !inWindow(window, tx, ty + 1) ? tile + tilesX : -1;
  // One that is not there is read as the tile itself, and left alone by `exchange`.
  const left = around.tile[0] < 0 ? 0 : -side;
  const right = around.tile[1] < 0 ? 0 : side;
  const low = around.tile[2] < 0 ? 0 : -side * nx;
  const high = around.tile[3] < 0 ? 0 : side * nx;
  let [heat0, heat1, heat2, heat3] = [0, 0, 0, 0];
  let [cells0, cells1, cells2, cells3] = [0, 0, 0, 0];
  for (let k = 0; k < layers; k++) {
    for (let iy = ty * side; iy < (ty + 1) * side; iy++) {
      const row = (k * ny + iy) * nx + tx * side;
      for (let cell = row; cell < row + side; cell++) {
        heat0 += heatJ[cell + left]!;
        heat1 += heatJ[cell + right]!;
        heat2 += heatJ[cell + low]!;
        heat3 += heatJ[cell + high]!;
        cells0 += metal[cell + left]!;
        cells1 += metal[cell + right]!;
        cells2 += metal[cell + low]!;
        cells3 += metal[cell + high]!;
      }
    }
  }
  around.heatJ[0] = heat0;
  around.heatJ[1] = heat1;
  around.heatJ[2] = heat2;
  around.heatJ[3] = heat3;
  around.cells[0] = cells0;
  around.cells[1] = cells1;
  around.cells[2] = cells2;
  around.cells[3] = cells3;
}

function relax(window: HeatWindow, field: HeatField, table: EnthalpyTable, tile: number, tick: number): void {
  const { side, tilesX } = window;
  const elapsedS = (tick - window.steppedTo[tile]!) / TICK_HZ;
  window.steppedTo[tile] = tick;
  if (elapsedS <= 0) return;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  measure(field, tx * side, ty * side, side);
  if (mean.cells < 1e-6) return;
  const volume = field.cellMm * field.cellMm * field.layerMm;
  const sideMm = side * field.cellMm;
  const diffusivity = 0.5 * table.greatestDiffusivityMm2PerS;
  // Slowest cosine mode along one side of an insulated square: rate a (pi / L)^2, taken implicitly.
  const keep = 1 / (1 + (elapsedS * diffusivity * 9.869604401) / (sideMm * sideMm));
  const here = mean.jPerMm3;
  const { heatJ, metal } = field;
  let heat = 0;
  for (let k = 0; k < field.layers; k++) {
    for (let iy = ty * side; iy < (ty + 1) * side; iy++) {
      const row = (k * field.ny + iy) * field.nx + tx * side;
      for (let cell = row; cell < row + side; cell++) {
        const level = here * metal[cell]! * volume;
        const held = level + (heatJ[cell]! - level) * keep;
        heatJ[cell] = held;
        heat += held;
      }
    }
  }
  // Two equal tiles level out as 1 / (1 + 2 a t / L^2); the share is bounded so that nothing overshoots.
  const share = (elapsedS * diffusivity) / (sideMm * sideMm);
  trade.part = share / (1 + 4 * share);
  trade.cells = mean.cells;
  trade.jPerMm3 = heat / (mean.cells * volume);
  measureAround(window, field, tile);
  for (let n = 0; n < 4; n++) exchange(window, field, tile, n, tick);
}

function exchange(window: HeatWindow, field: HeatField, tile: number, n: number, tick: number): void {
  const other = around.tile[n]!;
  const otherCells = around.cells[n]!;
  if (other < 0 || otherCells < 1e-6) return;
  const { cells, part, jPerMm3: here } = trade;
  const volume = field.cellMm * field.cellMm * field.layerMm;
  const smaller = otherCells < cells ? otherCells : cells;
  const flow = part * (here - around.heatJ[n]! / (otherCells * volume)) * smaller * volume;
  if (flow < 1e-6 && flow > -1e-6) return;
  trade.jPerCell = -flow / cells;
  add(window, field, tile);
  trade.jPerMm3 = trade.heatJ / (cells * volume);
  trade.jPerCell = flow / otherCells;
  add(window, field, other);
  if (window.warm[other] === 0) {
    window.warm[other] = 1;
    window.list[window.cursor.count++] = other;
    window.steppedTo[other] = tick;
  }
}

/** Gives each cell of a tile `trade.jPerCell` by its metal, and sums the heat that it then holds. */
function add(window: HeatWindow, field: HeatField, tile: number): void {
  const { side, tilesX } = window;
  const { jPerCell } = trade;
  const y0 = ((tile / tilesX) | 0) * side;
  const x0 = tile * side - y0 * tilesX;
  const { heatJ, metal } = field;
  let heat = 0;
  for (let k = 0; k < field.layers; k++) {
    for (let iy = y0; iy < y0 + side; iy++) {
      const row = (k * field.ny + iy) * field.nx + x0;
      for (let cell = row; cell < row + side; cell++) {
        const held = heatJ[cell]! + jPerCell * metal[cell]!;
        heatJ[cell] = held;
        heat += held;
      }
    }
  }
  trade.heatJ = heat;
}
