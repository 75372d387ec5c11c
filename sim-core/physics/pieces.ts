import { type SimulationState, touchMetal } from '../run/simulation-state.ts';
import { type NodeGrid, nodeGrid, nodeUnder, stillHangsTogether } from './loose-look.ts';
import { NODE_CELLS, TILE_NODES } from './metal-field.ts';

/** Pieces smaller than this are chips that stay out of sight, mm2. */
const LEAST_AREA_MM2 = 4;
/** Most pieces that can fall from one plate. */
const MOST_PIECES = 250;

/** Labels of nodes in a flood: metal not reached yet, no metal (as in `openNodes`), reached. */
const METAL = 0;
const NO_METAL = 1;
const REACHED = 2;
/** Memory of the flood, kept from look to look: nothing in it outlives one. */
let labels = new Uint8Array(0);
let queue = new Int32Array(0);

/**
 * Looks for pieces that nothing holds any more and lets them fall. A piece is metal connected through faces; it stays while
 * it reaches a support. The search runs over all layers, so that a bevelled slot parts a plate as a square one does.
 */
export function dropLoosePieces(state: SimulationState): void {
  const { metal, setup, look } = state;
  const supports = setup.supports ?? [];
  if (supports.length === 0 || stillHangsTogether(state)) return;
  look.heldTogether = 1;
  const grid = nodeGrid(metal);
  const plane = grid.nx * grid.ny;
  if (labels.length < metal.openNodes.length) {
    labels = new Uint8Array(metal.openNodes.length);
    queue = new Int32Array(metal.openNodes.length);
  }
  const label = labels.subarray(0, metal.openNodes.length);
  label.set(metal.openNodes);
  for (const { xMm, yMm } of supports) {
    const under = nodeUnder(metal, xMm, yMm);
    for (let level = 0; under >= 0 && level < grid.levels; level++) flood(label, queue, grid, level * plane + under);
  }
  for (let seed = label.indexOf(METAL); seed >= 0; seed = label.indexOf(METAL, seed)) {
    const nodes = flood(label, queue, grid, seed);
    const id = state.fallen.length + 1;
    const areaMm2 = (nodes / grid.levels) * NODE_CELLS * NODE_CELLS * metal.cellMm * metal.cellMm;
    if (id <= MOST_PIECES && areaMm2 >= LEAST_AREA_MM2) takeAway(state, label, queue.subarray(0, nodes), id, areaMm2);
  }
}

/**
 * Reaches all metal that is connected with a node; the nodes reached stand at the queue's start, their number is returned. The
 * outermost nodes are margin without metal, so no neighbour lies off the grid.
 */
function flood(label: Uint8Array, queue: Int32Array, grid: NodeGrid, seed: number): number {
  if (label[seed] !== METAL) return 0;
  const { nx } = grid;
  const plane = nx * grid.ny;
  const top = plane;
  const bottom = plane * (grid.levels - 1);
  label[seed] = REACHED;
  queue[0] = seed;
  let count = 1;
  const offsets = [-1, 1, -nx, nx];
  for (let at = 0; at < count; at++) {
    const node = queue[at]!;
    for (let n = 0; n < 4; n++) {
      const other = node + offsets[n]!;
      if (label[other] !== METAL) continue;
      label[other] = REACHED;
      queue[count++] = other;
    }
    if (node >= top && label[node - plane] === METAL) {
      label[node - plane] = REACHED;
      queue[count++] = node - plane;
    }
    if (node < bottom && label[node + plane] === METAL) {
      label[node + plane] = REACHED;
      queue[count++] = node + plane;
    }
  }
  return count;
}

/** Lets a piece fall. A column goes with all its layers, whatever else they hang on. */
function takeAway(state: SimulationState, label: Uint8Array, nodes: Int32Array, id: number, areaMm2: number): void {
  const { metal } = state;
  const grid = nodeGrid(metal);
  const plane = grid.nx * grid.ny;
  let sumX = 0;
  let sumY = 0;
  let count = 0;
  for (const node of nodes) {
    const place = node % plane;
    const y = (place / grid.nx) | 0;
    const x = place - y * grid.nx;
    const first = y * NODE_CELLS * metal.nx + x * NODE_CELLS;
    if (metal.pieceOf[first] === id) continue;
    sumX += x * NODE_CELLS + 1;
    sumY += y * NODE_CELLS + 1;
    count++;
    for (let row = 0; row < NODE_CELLS; row++)
      metal.pieceOf.fill(id, first + row * metal.nx, first + row * metal.nx + NODE_CELLS);
    for (let level = 0; level < grid.levels; level++) {
      metal.openNodes[level * plane + place] = 1;
      if (label[level * plane + place] === METAL) label[level * plane + place] = NO_METAL;
    }
    touchMetal(state, (x / TILE_NODES) | 0, (y / TILE_NODES) | 0);
  }
  state.fallen.push({
    id,
    tick: state.totals.tick,
    centreXMm: metal.x0Mm + (sumX / count) * metal.cellMm,
    centreYMm: metal.y0Mm + (sumY / count) * metal.cellMm,
    areaMm2,
  });
}
