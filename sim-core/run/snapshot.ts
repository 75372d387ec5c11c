import { fillMetalShare, type SimulationState } from './simulation-state.ts';
import { decodeHeatTile, decodeMetalTile, encodeHeatTile, encodeMetalTile } from './tile-chunk.ts';
import { CORE_VERSION } from './types.ts';

/**
 * The state at a tick: the small parts as bytes, and per touched tile its bytes: metal under the tile's number, heat under
 * that number plus the number of tiles. Unchanged tiles are shared between
 * snapshots, so that a keyframe costs only what changed since the last one.
 */
export interface Snapshot {
  head: Uint8Array;
  tiles: ReadonlyMap<number, Uint8Array>;
}

/** Numbers of the small parts, in a fixed order. Objects hold only numbers; arrays go whole. */
function parts(state: SimulationState): (Float64Array | Int32Array | Uint8Array)[] {
  return [
    state.trail.x,
    state.trail.y,
    state.severed.places,
    state.window.warm,
    state.window.steppedTo,
    state.window.list,
    state.sinceSecond,
  ];
}

function records(state: SimulationState): Record<string, number>[] {
  return [
    state.totals,
    state.arc,
    state.motion,
    state.front,
    state.severed.marks,
    state.window.cursor,
    state.ledger,
    state.rolling,
  ] as unknown as Record<string, number>[];
}

/** Bytes of the small parts: counts first, then every number as eight bytes. */
export function encodeHead(state: SimulationState): Uint8Array {
  const numbers: number[] = [];
  for (const record of records(state)) for (const key of Object.keys(record)) numbers.push(record[key]!);
  for (const part of parts(state)) for (const value of part) numbers.push(value);
  numbers.push(state.fallen.length);
  for (const piece of state.fallen) numbers.push(piece.id, piece.tick, piece.centreXMm, piece.centreYMm, piece.areaMm2);
  return new Uint8Array(new Float64Array(numbers).buffer);
}

function decodeHead(state: SimulationState, bytes: Uint8Array): void {
  if (bytes.length % 8 !== 0) throw new RangeError('The saved state is not whole.');
  const numbers = new Float64Array(bytes.slice().buffer);
  let at = 0;
  const next = (): number => {
    const value = numbers[at++];
    if (value === undefined) throw new RangeError('The saved state breaks off.');
    return value;
  };
  for (const record of records(state)) for (const key of Object.keys(record)) record[key] = next();
  for (const part of parts(state)) for (let i = 0; i < part.length; i++) part[i] = next();
  const fallen = next();
  if (!(fallen >= 0 && fallen < 256)) throw new RangeError('The saved state holds an impossible number of fallen pieces.');
  state.fallen.length = 0;
  for (let n = 0; n < fallen; n++) {
    state.fallen.push({ id: next(), tick: next(), centreXMm: next(), centreYMm: next(), areaMm2: next() });
  }
  if (at !== numbers.length) throw new RangeError('The saved state goes on after its end.');
}

/** Takes a snapshot; `cache` holds the bytes of tiles that have not changed since they were taken. */
export function takeSnapshot(state: SimulationState, cache: Map<number, Uint8Array>): Snapshot {
  const tiles = state.metal.tilesX * state.metal.tilesY;
  for (let key = 0; key < state.stale.length; key++) {
    if (state.stale[key] === 0) continue;
    cache.set(
      key,
      key < tiles ? encodeMetalTile(state.metal, state.heat, key) : encodeHeatTile(state.metal, state.heat, key - tiles),
    );
    state.stale[key] = 0;
  }
  return { head: encodeHead(state), tiles: new Map(cache) };
}

/** Puts a snapshot back. Tiles whose bytes are already in place are left alone. */
export function putSnapshot(state: SimulationState, cache: Map<number, Uint8Array>, snapshot: Snapshot): void {
  const tiles = state.metal.tilesX * state.metal.tilesY;
  for (let key = 0; key < state.stale.length; key++) {
    const wanted = snapshot.tiles.get(key);
    if (state.stale[key] === 0 && cache.get(key) === wanted) continue;
    const tile = key < tiles ? key : key - tiles;
    if (!wanted) {
      if (key < tiles) clearMetalTile(state, tile);
      else clearHeatTile(state, tile);
      cache.delete(key);
    } else {
      if (key < tiles) decodeMetalTile(state.metal, state.heat, tile, wanted);
      else decodeHeatTile(state.metal, state.heat, tile, wanted);
      cache.set(key, wanted);
    }
    state.stale[key] = 0;
    state.forView[tile] = 1;
  }
  decodeHead(state, snapshot.head);
}

/** Back to how the tile's metal was before the run. */
function clearMetalTile(state: SimulationState, tile: number): void {
  const { metal, heat, openAtStart } = state;
  const tilesX = metal.tilesX;
  const cells = metal.nx / tilesX;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  for (let iy = ty * cells; iy < (ty + 1) * cells; iy++) {
    for (let ix = tx * cells; ix < (tx + 1) * cells; ix++) {
      const column = iy * metal.nx + ix;
      metal.gone.fill(openAtStart[column]!, column * metal.layers, (column + 1) * metal.layers);
      metal.pieceOf[column] = 0;
      metal.openedTo[column] = 0;
    }
  }
  const side = heat.nx / tilesX;
  for (let hy = ty * side; hy < (ty + 1) * side; hy++)
    for (let hx = tx * side; hx < (tx + 1) * side; hx++) fillMetalShare(metal, heat, openAtStart, hx, hy);
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

/** A snapshot as one run of bytes: name, core version and setup, then head and tiles, each with its length. */
export function snapshotBytes(state: SimulationState, snapshot: Snapshot): Uint8Array {
  const title = titleBytes(state);
  let size = 12 + title.length + snapshot.head.length;
  for (const chunk of snapshot.tiles.values()) size += 8 + chunk.length;
  const bytes = new Uint8Array(size);
  let at = writeBlock(bytes, 0, title);
  at = writeBlock(bytes, at, snapshot.head);
  at = writeCount(bytes, at, snapshot.tiles.size);
  for (let key = 0; key < state.stale.length; key++) {
    const chunk = snapshot.tiles.get(key);
    if (!chunk) continue;
    at = writeCount(bytes, at, key);
    at = writeBlock(bytes, at, chunk);
  }
  return bytes;
}

/** Inverse of `snapshotBytes`. Throws RangeError where the bytes are of another core, another setup, or broken. */
export function snapshotFromBytes(state: SimulationState, bytes: Uint8Array): Snapshot {
  const title = readBlock(bytes, 0);
  const expected = titleBytes(state);
  if (title.length !== expected.length || title.some((byte, i) => byte !== expected[i])) {
    throw new RangeError('The saved state is of another setup or another core version.');
  }
  let at = 4 + title.length;
  const head = readBlock(bytes, at);
  at += 4 + head.length;
  const count = readCount(bytes, at);
  at += 4;
  const tiles = new Map<number, Uint8Array>();
  for (let n = 0; n < count; n++) {
    const tile = readCount(bytes, at);
    if (tile >= state.stale.length) throw new RangeError(`The saved state names tile ${tile}, which the plate does not have.`);
    const chunk = readBlock(bytes, at + 4);
    tiles.set(tile, chunk);
    at += 8 + chunk.length;
  }
  if (at !== bytes.length) throw new RangeError('The saved state goes on after its end.');
  return { head, tiles };
}

function titleBytes(state: SimulationState): Uint8Array {
  const text = JSON.stringify([MAGIC, CORE_VERSION, state.setup]);
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
