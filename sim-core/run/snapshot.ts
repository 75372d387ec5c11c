import { openGap, resetOpenNodes } from '../physics/metal-field.ts';
import { fillMetalShare, type SimulationState } from './simulation-state.ts';
import { decodeHead, encodeHead } from './state-head.ts';
import { decodeHeatTile, decodeMetalTile, encodeHeatTile, encodeMetalTile } from './tile-chunk.ts';
import { mark, unmarkAll } from './tile-marks.ts';
import { createTileStore, PAGE_TILES, putTileBytes, sharePages, type TilePage, type TileStore, tileBytes } from './tile-store.ts';
import { PHYSICS_VERSION } from './types.ts';

/**
 * The state at a tick: the small parts as bytes, and per touched tile its bytes: metal under the tile's number, heat under
 * that number plus the number of tiles. Unchanged tiles are shared between snapshots, so that a keyframe costs only what
 * changed since the last one.
 */
export interface Snapshot {
  head: Uint8Array;
  pages: readonly TilePage[];
}

/** Brings the bytes of every tile that has changed since they were taken up to date. */
export function refreshTiles(state: SimulationState, store: TileStore): void {
  const { stale, metal, heat } = state;
  const tiles = metal.tilesX * metal.tilesY;
  for (let i = 0; i < stale.size.count; i++) {
    const key = stale.list[i]!;
    putTileBytes(store, key, key < tiles ? encodeMetalTile(metal, heat, key) : encodeHeatTile(metal, heat, key - tiles));
  }
  unmarkAll(stale);
}

/** Takes a snapshot; `store` holds the bytes of tiles that have not changed since they were taken. */
export function takeSnapshot(state: SimulationState, store: TileStore): Snapshot {
  refreshTiles(state, store);
  return { head: encodeHead(state).slice(), pages: sharePages(store) };
}

/** Puts a snapshot back. Tiles whose bytes are already in place are left alone. */
export function putSnapshot(state: SimulationState, store: TileStore, snapshot: Snapshot): void {
  const { stale } = state;
  for (let i = 0; i < stale.size.count; i++) {
    const key = stale.list[i]!;
    putTile(state, store, key, tileBytes(snapshot.pages, key));
  }
  unmarkAll(stale);
  for (let page = 0; page < store.pages.length; page++) {
    if (store.pages[page] === snapshot.pages[page]) continue;
    for (let n = 0; n < PAGE_TILES; n++) {
      const wanted = snapshot.pages[page]?.[n];
      if (store.pages[page]![n] !== wanted) putTile(state, store, page * PAGE_TILES + n, wanted);
    }
    // From here on the two are one page again, which the next snapshot back can skip.
    store.pages[page] = snapshot.pages[page]!;
    store.owned[page] = 0;
  }
  decodeHead(state, snapshot.head);
}

function putTile(state: SimulationState, store: TileStore, key: number, wanted: Uint8Array | undefined): void {
  const { metal, heat } = state;
  const tiles = metal.tilesX * metal.tilesY;
  const tile = key < tiles ? key : key - tiles;
  if (key < tiles) {
    if (wanted) decodeMetalTile(metal, heat, tile, wanted);
    else clearMetalTile(state, tile);
  } else if (wanted) decodeHeatTile(metal, heat, tile, wanted);
  else clearHeatTile(state, tile);
  putTileBytes(store, key, wanted);
  mark(state.forView, tile);
}

/** Back to how the tile's metal was before the run. */
function clearMetalTile(state: SimulationState, tile: number): void {
  const { metal, heat } = state;
  resetOpenNodes(metal, tile);
  const tilesX = metal.tilesX;
  const cells = metal.nx / tilesX;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  for (let iy = ty * cells; iy < (ty + 1) * cells; iy++) {
    const from = iy * metal.nx + tx * cells;
    const to = from + cells;
    metal.gone.fill(0, from * metal.layers, to * metal.layers);
    metal.pieceOf.fill(0, from, to);
    metal.openedTo.fill(0, from, to);
    for (let column = from; column < to; column++) {
      if (metal.openAtStart[column] === 1) metal.gone.fill(1, column * metal.layers, (column + 1) * metal.layers);
      else if (metal.gapTo > metal.gapFrom) openGap(metal, column);
    }
  }
  const side = heat.nx / tilesX;
  for (let hy = ty * side; hy < (ty + 1) * side; hy++)
    for (let hx = tx * side; hx < (tx + 1) * side; hx++) fillMetalShare(metal, heat, hx, hy);
}

function clearHeatTile(state: SimulationState, tile: number): void {
  const { metal, heat } = state;
  const ty = (tile / metal.tilesX) | 0;
  const tx = tile - ty * metal.tilesX;
  const side = heat.nx / metal.tilesX;
  for (let k = 0; k < heat.layers; k++) {
    for (let hy = ty * side; hy < (ty + 1) * side; hy++) {
      const from = (k * heat.ny + hy) * heat.nx + tx * side;
      heat.heatJ.fill(0, from, from + side);
    }
  }
}

const MAGIC = 'kerfhand-state';

/** A snapshot as one run of bytes: name, version of the physics and setup, then head and tiles, each with its length. */
export function snapshotBytes(state: SimulationState, snapshot: Snapshot): Uint8Array {
  const title = titleBytes(state);
  let size = 12 + title.length + snapshot.head.length;
  let count = 0;
  eachTile(snapshot.pages, (_, chunk) => {
    size += 8 + chunk.length;
    count++;
  });
  const bytes = new Uint8Array(size);
  let at = writeBlock(bytes, 0, title);
  at = writeBlock(bytes, at, snapshot.head);
  at = writeCount(bytes, at, count);
  eachTile(snapshot.pages, (key, chunk) => {
    at = writeCount(bytes, at, key);
    at = writeBlock(bytes, at, chunk);
  });
  return bytes;
}

function eachTile(pages: readonly TilePage[], call: (key: number, chunk: Uint8Array) => void): void {
  for (const [page, tiles] of pages.entries()) {
    for (const [n, chunk] of tiles.entries()) if (chunk) call(page * PAGE_TILES + n, chunk);
  }
}

/** Inverse of `snapshotBytes`. Throws RangeError where the bytes are of another core, another setup, or broken. */
export function snapshotFromBytes(state: SimulationState, bytes: Uint8Array): Snapshot {
  const title = readBlock(bytes, 0);
  const expected = titleBytes(state);
  if (title.length !== expected.length || title.some((byte, i) => byte !== expected[i])) {
    throw new RangeError('The saved state is of another setup or another version of the physics.');
  }
  let at = 4 + title.length;
  const head = readBlock(bytes, at);
  at += 4 + head.length;
  const count = readCount(bytes, at);
  at += 4;
  const keys = 2 * state.metal.tilesX * state.metal.tilesY;
  const store = createTileStore(keys);
  for (let n = 0; n < count; n++) {
    const key = readCount(bytes, at);
    if (key >= keys) throw new RangeError(`The saved state names tile ${key}, which the plate does not have.`);
    const chunk = readBlock(bytes, at + 4);
    putTileBytes(store, key, chunk);
    at += 8 + chunk.length;
  }
  if (at !== bytes.length) throw new RangeError('The saved state goes on after its end.');
  return { head, pages: sharePages(store) };
}

function titleBytes(state: SimulationState): Uint8Array {
  const text = JSON.stringify([MAGIC, PHYSICS_VERSION, state.setup]);
  const bytes = new Uint8Array(text.length * 2);
  for (let i = 0; i < text.length; i++) {
    bytes[2 * i] = text.charCodeAt(i) & 255;
    bytes[2 * i + 1] = text.charCodeAt(i) >> 8;
  }
  return bytes;
}

function writeCount(bytes: Uint8Array, at: number, count: number): number {
  for (let b = 0; b < 4; b++) bytes[at + b] = (count >>> (8 * b)) & 255;
  return at + 4;
}

function readCount(bytes: Uint8Array, at: number): number {
  if (at + 4 > bytes.length) throw new RangeError('The saved state breaks off.');
  return (bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24)) >>> 0;
}

function writeBlock(bytes: Uint8Array, at: number, block: Uint8Array): number {
  bytes.set(block, writeCount(bytes, at, block.length));
  return at + 4 + block.length;
}

function readBlock(bytes: Uint8Array, at: number): Uint8Array {
  const length = readCount(bytes, at);
  if (at + 4 + length > bytes.length) throw new RangeError('The saved state breaks off.');
  return bytes.slice(at + 4, at + 4 + length);
}
