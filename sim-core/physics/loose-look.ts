import type { SimulationState } from '../run/simulation-state.ts';
import { unmarkAll } from '../run/tile-marks.ts';
import { type MetalField, TILE_CELLS } from './metal-field.ts';

/** The search for loose pieces walks nodes: every second cell both ways, every heat layer's metal layers. */
export const NODE_CELLS = 2;
export const NODE_LAYERS = 4;
const TILE_NODES = TILE_CELLS / NODE_CELLS;

/**
 * What the last look for loose pieces saw, so that the next need only look where metal has gone since. No part of the state:
 * where `known` is 0 the whole plate is looked at, which comes to the same.
 */
export interface LooseLook {
  /** 1 where a node held no metal. */
  open: Uint8Array;
  /** Scratch: 1 where a flood has been. */
  seen: Uint8Array;
  marks: { known: number };
}

export interface NodeGrid {
  nx: number;
  ny: number;
  levels: number;
}

export function nodeGrid(metal: MetalField): NodeGrid {
  return { nx: metal.nx / NODE_CELLS, ny: metal.ny / NODE_CELLS, levels: metal.layers / NODE_LAYERS };
}

export function createLooseLook(metal: MetalField): LooseLook {
  const { nx, ny, levels } = nodeGrid(metal);
  return { open: new Uint8Array(nx * ny * levels), seen: new Uint8Array(nx * ny * levels), marks: { known: 0 } };
}

/** A node holds metal where any of its layers does, and it has not fallen. */
export function isSolidNode(metal: MetalField, grid: NodeGrid, node: number): boolean {
  const plane = grid.nx * grid.ny;
  const level = (node / plane) | 0;
  const rest = node - level * plane;
  const y = (rest / grid.nx) | 0;
  const column = y * NODE_CELLS * metal.nx + (rest - y * grid.nx) * NODE_CELLS;
  if (metal.pieceOf[column]! > 0) return false;
  const base = column * metal.layers + level * NODE_LAYERS;
  for (let k = 0; k < NODE_LAYERS; k++) if (metal.gone[base + k]! < 1) return true;
  return false;
}

/**
 * True where nothing can have come loose since the last look: around the metal that has gone since, all that is left still
 * hangs together within the tiles about it, so every way that led through it leads round it; and no support has lost its
 * metal. False says only that the whole plate must be looked at.
 */
export function stillHangsTogether(state: SimulationState): boolean {
  const { look, metal, sinceLook, setup } = state;
  if (look.marks.known === 0) return false;
  const grid = nodeGrid(metal);
  const box = touchedBox(state, grid);
  const gone = newlyOpen(state, grid);
  unmarkAll(sinceLook);
  for (const { xMm, yMm } of setup.supports ?? []) {
    const x = ((xMm - metal.x0Mm) / metal.cellMm / NODE_CELLS) | 0;
    const y = ((yMm - metal.y0Mm) / metal.cellMm / NODE_CELLS) | 0;
    for (const node of gone) if (node % (grid.nx * grid.ny) === y * grid.nx + x) return false;
  }
  const rim = new Set<number>();
  for (const node of gone) eachNeighbour(grid, box, node, (other) => look.open[other] === 0 && rim.add(other));
  const [first] = rim;
  if (first === undefined) return true;
  const visited = [first];
  look.seen[first] = 1;
  let missing = rim.size - 1;
  for (let at = 0; at < visited.length && missing > 0; at++) {
    eachNeighbour(grid, box, visited[at]!, (other) => {
      if (look.open[other] === 1 || look.seen[other] === 1) return;
      look.seen[other] = 1;
      visited.push(other);
      if (rim.has(other)) missing--;
    });
  }
  for (const node of visited) look.seen[node] = 0;
  return missing === 0;
}

/** Notes the whole plate as it is now. */
export function noteWholePlate(state: SimulationState): void {
  const { look, metal, sinceLook } = state;
  const grid = nodeGrid(metal);
  for (let node = 0; node < look.open.length; node++) look.open[node] = isSolidNode(metal, grid, node) ? 0 : 1;
  look.marks.known = 1;
  unmarkAll(sinceLook);
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

/** Nodes of the touched tiles that held metal at the last look and hold none now; noted as open. */
function newlyOpen(state: SimulationState, grid: NodeGrid): number[] {
  const { look, metal, sinceLook } = state;
  const gone: number[] = [];
  for (let i = 0; i < sinceLook.size.count; i++) {
    const ty = (sinceLook.list[i]! / metal.tilesX) | 0;
    const tx = sinceLook.list[i]! - ty * metal.tilesX;
    for (let level = 0; level < grid.levels; level++) {
      for (let y = ty * TILE_NODES; y < (ty + 1) * TILE_NODES; y++) {
        for (let x = tx * TILE_NODES; x < (tx + 1) * TILE_NODES; x++) {
          const node = (level * grid.ny + y) * grid.nx + x;
          if (look.open[node] === 1 || isSolidNode(metal, grid, node)) continue;
          look.open[node] = 1;
          gone.push(node);
        }
      }
    }
  }
  return gone;
}

function eachNeighbour(grid: NodeGrid, box: NodeBox, node: number, call: (other: number) => void): void {
  const plane = grid.nx * grid.ny;
  const level = (node / plane) | 0;
  const rest = node - level * plane;
  const y = (rest / grid.nx) | 0;
  const x = rest - y * grid.nx;
  if (x > box.x0) call(node - 1);
  if (x + 1 < box.x1) call(node + 1);
  if (y > box.y0) call(node - grid.nx);
  if (y + 1 < box.y1) call(node + grid.nx);
  if (level > 0) call(node - plane);
  if (level + 1 < grid.levels) call(node + plane);
}
