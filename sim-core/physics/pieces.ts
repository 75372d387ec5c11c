import { type SimulationState, touchMetal } from '../run/simulation-state.ts';
import { isSolidNode, nodeGrid, noteWholePlate, NODE_CELLS as STEP, stillHangsTogether } from './loose-look.ts';
import { TILE_CELLS } from './metal-field.ts';

/** Pieces smaller than this are chips that stay out of sight, mm2. */
const LEAST_AREA_MM2 = 4;

/**
 * Looks for pieces that nothing holds any more and lets them fall. A piece is metal connected through faces; it stays while
 * it reaches a support. The search runs over all layers, so that a bevelled slot parts a plate as a square one does.
 */
export function dropLoosePieces(state: SimulationState): void {
  const { metal, setup } = state;
  const supports = setup.supports ?? [];
  if (supports.length === 0 || stillHangsTogether(state)) return;
  noteWholePlate(state);
  const { open } = state.look;
  const grid = nodeGrid(metal);
  const { nx: sx, ny: sy, levels } = grid;
  const plane = sx * sy;
  const label = new Uint8Array(plane * levels);
  const stack: number[] = [];
  let anyFell = false;
  // A column that falls in this look takes all its layers with it.
  const solid = (node: number): boolean => open[node] === 0 && !(anyFell && !isSolidNode(metal, grid, node));
  const flood = (seed: number, mark: number): number => {
    let count = 0;
    if (label[seed] !== 0 || !solid(seed)) return 0;
    label[seed] = mark;
    stack.push(seed);
    while (stack.length > 0) {
      const node = stack.pop()!;
      count++;
      const level = (node / plane) | 0;
      const rest = node - level * plane;
      const y = (rest / sx) | 0;
      const x = rest - y * sx;
      if (x > 0) visit(node - 1, mark);
      if (x + 1 < sx) visit(node + 1, mark);
      if (y > 0) visit(node - sx, mark);
      if (y + 1 < sy) visit(node + sx, mark);
      if (level > 0) visit(node - plane, mark);
      if (level + 1 < levels) visit(node + plane, mark);
    }
    return count;
  };
  const visit = (node: number, mark: number): void => {
    if (label[node] !== 0 || !solid(node)) return;
    label[node] = mark;
    stack.push(node);
  };
  for (const support of supports) {
    const x = ((support.xMm - metal.x0Mm) / metal.cellMm / STEP) | 0;
    const y = ((support.yMm - metal.y0Mm) / metal.cellMm / STEP) | 0;
    if (x < 0 || y < 0 || x >= sx || y >= sy) continue;
    for (let level = 0; level < levels; level++) flood(level * plane + y * sx + x, 1);
  }
  for (let seed = 0; seed < label.length; seed++) {
    if (label[seed] !== 0 || !solid(seed)) continue;
    const nodes = flood(seed, 2);
    const id = state.fallen.length + 1;
    const areaMm2 = (nodes / levels) * STEP * STEP * metal.cellMm * metal.cellMm;
    if (id > 250 || areaMm2 < LEAST_AREA_MM2) {
      relabel(label, 2, 3);
      continue;
    }
    takeAway(state, label, id, areaMm2, sx, sy, levels);
    anyFell = true;
    state.look.marks.known = 0;
    relabel(label, 2, 3);
  }
}

function relabel(label: Uint8Array, from: number, to: number): void {
  for (let i = 0; i < label.length; i++) if (label[i] === from) label[i] = to;
}

function takeAway(
  state: SimulationState,
  label: Uint8Array,
  id: number,
  areaMm2: number,
  sx: number,
  sy: number,
  levels: number,
): void {
  const { metal } = state;
  let sumX = 0;
  let sumY = 0;
  let count = 0;
  for (let y = 0; y < sy; y++) {
    for (let x = 0; x < sx; x++) {
      let here = false;
      for (let level = 0; level < levels && !here; level++) here = label[level * sx * sy + y * sx + x] === 2;
      if (!here) continue;
      sumX += x * STEP + 1;
      sumY += y * STEP + 1;
      count++;
      for (let n = 0; n < STEP * STEP; n++) {
        const ix = x * STEP + (n % STEP);
        const iy = y * STEP + ((n / STEP) | 0);
        metal.pieceOf[iy * metal.nx + ix] = id;
        touchMetal(state, (ix / TILE_CELLS) | 0, (iy / TILE_CELLS) | 0);
      }
    }
  }
  state.fallen.push({
    id,
    tick: state.totals.tick,
    centreXMm: metal.x0Mm + (sumX / count) * metal.cellMm,
    centreYMm: metal.y0Mm + (sumY / count) * metal.cellMm,
    areaMm2,
  });
}
