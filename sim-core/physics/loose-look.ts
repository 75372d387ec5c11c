import type { SimulationState } from '../run/simulation-state.ts';
import { mark, unmarkAll } from '../run/tile-marks.ts';
import type { SimulationSetup } from '../run/types.ts';
import { type MetalField, NODE_CELLS, NODE_LAYERS, TILE_NODES } from './metal-field.ts';

/** Whether nothing was loose at the last look: only then does the next one tell from what has gone since. */
export interface LooseLook {
  heldTogether: number;
}

export interface NodeGrid {
  nx: number;
  ny: number;
  levels: number;
}

export function nodeGrid(metal: MetalField): NodeGrid {
  return { nx: metal.nx / NODE_CELLS, ny: metal.ny / NODE_CELLS, levels: metal.layers / NODE_LAYERS };
}

/** A plate without cut-outs that rests on something hangs together from the start; any other is looked at whole once. */
export function createLooseLook(metal: MetalField, setup: SimulationSetup): LooseLook {
  const rests = (setup.supports ?? []).some(({ xMm, yMm }) => {
    const under = nodeUnder(metal, xMm, yMm);
    return under >= 0 && metal.openNodes[under] === 0;
  });
  return { heldTogether: rests && (setup.cutouts ?? []).length === 0 ? 1 : 0 };
}

/** Node of the top level under a place on the plate, or -1 off the grid. */
export function nodeUnder(metal: MetalField, xMm: number, yMm: number): number {
  const grid = nodeGrid(metal);
  const x = ((xMm - metal.x0Mm) / metal.cellMm / NODE_CELLS) | 0;
  const y = ((yMm - metal.y0Mm) / metal.cellMm / NODE_CELLS) | 0;
  return x >= 0 && y >= 0 && x < grid.nx && y < grid.ny ? y * grid.nx + x : -1;
}

/**
 * Brings `openNodes` up to date and tells whether nothing can have come loose since the last look: around the metal that has
 * gone since, all that is left still hangs together within the tiles about it, so every way that led through it leads round
 * it; and no support has lost its metal. False says only that the whole plate must be looked at.
 */
export function stillHangsTogether(state: SimulationState): boolean {
  const { metal, sinceLook, look, setup } = state;
  const grid = nodeGrid(metal);
  const plane = grid.nx * grid.ny;
  const box = touchedBox(state, grid);
  const gone = takeNewlyOpen(state, grid);
  for (let i = 0; i < sinceLook.size.count; i++) {
    mark(state.stale, sinceLook.list[i]!);
    mark(state.sinceSecond, sinceLook.list[i]!);
  }
  unmarkAll(sinceLook);
  if (look.heldTogether === 0) return false;
  for (const { xMm, yMm } of setup.supports ?? []) {
    const under = nodeUnder(metal, xMm, yMm);
    if (gone.some((node) => node % plane === under)) return false;
  }
  return hangsTogetherAround(metal.openNodes, grid, box, gone);
}

/** What the walk has met: metal beside what has gone, and whether the walk has been there. */
const RIM = 1;
const WALKED = 2;
/** Memory of the walk, kept from look to look: `met` is all 0 between looks. */
let met = new Uint8Array(0);
let walk = new Int32Array(0);
const neighbours = new Int32Array(6);

/** True where all metal beside the nodes that have gone is connected within the box. */
function hangsTogetherAround(openNodes: Uint8Array, grid: NodeGrid, box: NodeBox, gone: readonly number[]): boolean {
  if (met.length < openNodes.length) {
    met = new Uint8Array(openNodes.length);
    walk = new Int32Array(openNodes.length);
  }
  let missing = 0;
  let first = -1;
  for (const node of gone) {
    for (let n = readNeighbours(grid, box, node) - 1; n >= 0; n--) {
      const other = neighbours[n]!;
      if (openNodes[other] === 1 || met[other] !== 0) continue;
      met[other] = RIM;
      first = other;
      missing++;
    }
  }
  if (first < 0) return true;
  let count = 1;
  walk[0] = first;
  met[first] = WALKED;
  missing--;
  for (let at = 0; at < count && missing > 0; at++) {
    for (let n = readNeighbours(grid, box, walk[at]!) - 1; n >= 0; n--) {
      const other = neighbours[n]!;
      if (openNodes[other] === 1 || met[other] === WALKED) continue;
      if (met[other] === RIM) missing--;
      met[other] = WALKED;
      walk[count++] = other;
    }
  }
  for (let at = 0; at < count; at++) met[walk[at]!] = 0;
  for (const node of gone) for (let n = readNeighbours(grid, box, node) - 1; n >= 0; n--) met[neighbours[n]!] = 0;
  return missing === 0;
}

interface NodeBox {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}

/** The touched tiles with one more all round, in nodes. */
function touchedBox(state: SimulationState, grid: NodeGrid): NodeBox {
  const { sinceLook, metal } = state;
  let [lowX, lowY, highX, highY] = [metal.tilesX, metal.tilesY, -1, -1];
  for (let i = 0; i < sinceLook.size.count; i++) {
    const ty = (sinceLook.list[i]! / metal.tilesX) | 0;
    const tx = sinceLook.list[i]! - ty * metal.tilesX;
    if (tx < lowX) lowX = tx;
    if (tx > highX) highX = tx;
    if (ty < lowY) lowY = ty;
    if (ty > highY) highY = ty;
  }
  return {
    x0: lowX > 0 ? (lowX - 1) * TILE_NODES : 0,
    y0: lowY > 0 ? (lowY - 1) * TILE_NODES : 0,
    x1: highX + 2 < metal.tilesX ? (highX + 2) * TILE_NODES : grid.nx,
    y1: highY + 2 < metal.tilesY ? (highY + 2) * TILE_NODES : grid.ny,
  };
}

/** Nodes of the touched tiles that held metal at the last look and hold none now; from here on they count as open. */
function takeNewlyOpen(state: SimulationState, grid: NodeGrid): number[] {
  const { metal, sinceLook } = state;
  const gone: number[] = [];
  for (let i = 0; i < sinceLook.size.count; i++) {
    const ty = (sinceLook.list[i]! / metal.tilesX) | 0;
    const tx = sinceLook.list[i]! - ty * metal.tilesX;
    for (let level = 0; level < grid.levels; level++) {
      for (let y = ty * TILE_NODES; y < (ty + 1) * TILE_NODES; y++) {
        for (let x = tx * TILE_NODES; x < (tx + 1) * TILE_NODES; x++) {
          const node = (level * grid.ny + y) * grid.nx + x;
          if (metal.openNodes[node] === 1 || isSolid(metal, x, y, level)) continue;
          metal.openNodes[node] = 1;
          gone.push(node);
        }
      }
    }
  }
  return gone;
}

/** A node holds metal where any layer of its first column does, and it has not fallen. */
function isSolid(metal: MetalField, x: number, y: number, level: number): boolean {
  const column = y * NODE_CELLS * metal.nx + x * NODE_CELLS;
  if (metal.pieceOf[column]! > 0) return false;
  const base = column * metal.layers + level * NODE_LAYERS;
  for (let k = 0; k < NODE_LAYERS; k++) if (metal.gone[base + k]! < 1) return true;
  return false;
}

/** Puts the nodes beside one, within the box, into `neighbours`; their number. */
function readNeighbours(grid: NodeGrid, box: NodeBox, node: number): number {
  const plane = grid.nx * grid.ny;
  const level = (node / plane) | 0;
  const rest = node - level * plane;
  const y = (rest / grid.nx) | 0;
  const x = rest - y * grid.nx;
  let count = 0;
  if (x > box.x0) neighbours[count++] = node - 1;
  if (x + 1 < box.x1) neighbours[count++] = node + 1;
  if (y > box.y0) neighbours[count++] = node - grid.nx;
  if (y + 1 < box.y1) neighbours[count++] = node + grid.nx;
  if (level > 0) neighbours[count++] = node - plane;
  if (level + 1 < grid.levels) neighbours[count++] = node + plane;
  return count;
}
