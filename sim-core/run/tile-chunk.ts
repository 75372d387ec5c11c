import { abs } from '../math/elementary.ts';
import type { HeatField } from '../physics/heat-field.ts';
import { type MetalField, NODE_CELLS, TILE_CELLS, TILE_NODES } from '../physics/metal-field.ts';

/**
 * One tile of metal and heat as bytes, exact to the last bit: runs of whole (0) and of open (1) cells by their length,
 * everything else as the eight bytes of its number.
 */
let scratch = new Uint8Array(1 << 16);
let scratchView = new DataView(scratch.buffer);

const ZEROS = 0;
const ONES = 1;
const LITERALS = 2;

/** Bytes of the metal of tile `tile`, with the share of metal in its heat cells; a fresh array. */
export function encodeMetalTile(metal: MetalField, heat: HeatField, tile: number): Uint8Array {
  let end = 0;
  makeRoom(TILE_CELLS * TILE_CELLS * (metal.layers * 9 + 9) + heat.layers * TILE_CELLS * TILE_CELLS * 9 + 64);
  eachRow(metal, tile, (column) => {
    end = encodeRuns(metal.gone, column * metal.layers, (column + TILE_CELLS) * metal.layers, end);
    end = encodeByteRuns(metal.pieceOf, column, column + TILE_CELLS, end);
  });
  eachNodeRow(metal, tile, (from, to) => {
    end = encodeByteRuns(metal.openNodes, from, to, end);
  });
  eachHeatRow(metal, heat, tile, (from, to) => {
    end = encodeRuns(heat.metal, from, to, end);
  });
  return scratch.slice(0, end);
}

/** Bytes of the heat of tile `tile`; a fresh array. */
export function encodeHeatTile(metal: MetalField, heat: HeatField, tile: number): Uint8Array {
  let end = 0;
  makeRoom(heat.layers * TILE_CELLS * TILE_CELLS * 9 + 64);
  eachHeatRow(metal, heat, tile, (from, to) => {
    end = encodeRuns(heat.heatJ, from, to, end);
  });
  return scratch.slice(0, end);
}

function makeRoom(bytes: number): void {
  if (scratch.length >= bytes) return;
  scratch = new Uint8Array(bytes);
  scratchView = new DataView(scratch.buffer);
}

/** Calls with the first column of each row of a tile. */
function eachRow(metal: MetalField, tile: number, call: (column: number) => void): void {
  const ty = (tile / metal.tilesX) | 0;
  const tx = tile - ty * metal.tilesX;
  for (let iy = ty * TILE_CELLS; iy < (ty + 1) * TILE_CELLS; iy++) call(iy * metal.nx + tx * TILE_CELLS);
}

/** Calls with the ends of each row of nodes of a tile, all levels. */
function eachNodeRow(metal: MetalField, tile: number, call: (from: number, to: number) => void): void {
  const ty = (tile / metal.tilesX) | 0;
  const tx = tile - ty * metal.tilesX;
  const nx = metal.nx / NODE_CELLS;
  const plane = nx * (metal.ny / NODE_CELLS);
  for (let level = 0; level < metal.openNodes.length; level += plane) {
    for (let y = ty * TILE_NODES; y < (ty + 1) * TILE_NODES; y++) {
      const from = level + y * nx + tx * TILE_NODES;
      call(from, from + TILE_NODES);
    }
  }
}

/** Calls with the ends of each row of heat cells of a tile, all layers. */
function eachHeatRow(metal: MetalField, heat: HeatField, tile: number, call: (from: number, to: number) => void): void {
  const ty = (tile / metal.tilesX) | 0;
  const tx = tile - ty * metal.tilesX;
  const side = heat.nx / metal.tilesX;
  for (let k = 0; k < heat.layers; k++) {
    for (let iy = ty * side; iy < (ty + 1) * side; iy++) {
      const from = (k * heat.ny + iy) * heat.nx + tx * side;
      call(from, from + side);
    }
  }
}

/** Bytes of a row as numbers: a loop that meets one kind of array only is compiled to much quicker code. */
const rowNumbers = new Float64Array(TILE_CELLS);

function encodeByteRuns(values: Uint8Array, from: number, to: number, start: number): number {
  for (let i = from; i < to; i++) rowNumbers[i - from] = values[i]!;
  return encodeRuns(rowNumbers, 0, to - from, start);
}

function encodeRuns(values: Float64Array, from: number, to: number, start: number): number {
  let end = start;
  let at = from;
  while (at < to) {
    const value = values[at]!;
    const kind = value === 0 ? ZEROS : value === 1 ? ONES : LITERALS;
    let stop = at + 1;
    if (kind === LITERALS) while (stop < to && values[stop] !== 0 && values[stop] !== 1) stop++;
    else while (stop < to && values[stop] === value) stop++;
    let length = (stop - at) * 3 + kind;
    while (length > 127) {
      scratch[end++] = (length & 127) | 128;
      length >>= 7;
    }
    scratch[end++] = length;
    if (kind === LITERALS) {
      for (let i = at; i < stop; i++, end += 8) scratchView.setFloat64(end, values[i]!, true);
    }
    at = stop;
  }
  return end;
}

/** Puts the metal of tile `tile` back. Throws RangeError where the bytes do not fit it. */
export function decodeMetalTile(metal: MetalField, heat: HeatField, tile: number, bytes: Uint8Array): void {
  let at = 0;
  eachRow(metal, tile, (column) => {
    at = decodeRuns(bytes, at, metal.gone, column * metal.layers, (column + TILE_CELLS) * metal.layers);
    at = decodeRuns(bytes, at, metal.pieceOf, column, column + TILE_CELLS);
    metal.openedTo.fill(0, column, column + TILE_CELLS);
  });
  eachNodeRow(metal, tile, (from, to) => {
    at = decodeRuns(bytes, at, metal.openNodes, from, to);
  });
  eachHeatRow(metal, heat, tile, (from, to) => {
    at = decodeRuns(bytes, at, heat.metal, from, to);
  });
  if (at !== bytes.length) throw new RangeError('A tile of the saved state is longer than its tile.');
}

/** Puts the heat of tile `tile` back. Throws RangeError where the bytes do not fit it. */
export function decodeHeatTile(metal: MetalField, heat: HeatField, tile: number, bytes: Uint8Array): void {
  let at = 0;
  eachHeatRow(metal, heat, tile, (from, to) => {
    at = decodeRuns(bytes, at, heat.heatJ, from, to);
  });
  if (at !== bytes.length) throw new RangeError('A tile of the saved state is longer than its tile.');
}

function decodeRuns(bytes: Uint8Array, start: number, values: Float64Array | Uint8Array, from: number, to: number): number {
  let at = start;
  let place = from;
  while (place < to) {
    let length = 0;
    let shift = 0;
    let byte = 0;
    do {
      if (at >= bytes.length || shift > 21) throw new RangeError('A tile of the saved state breaks off.');
      byte = bytes[at++]!;
      length |= (byte & 127) << shift;
      shift += 7;
    } while (byte > 127);
    const kind = length % 3;
    const stop = place + (length - kind) / 3;
    if (stop > to || stop === place) throw new RangeError('A tile of the saved state holds a run that leaves it.');
    if (kind !== LITERALS) values.fill(kind, place, stop);
    else {
      if (at + (stop - place) * 8 > bytes.length) throw new RangeError('A tile of the saved state breaks off.');
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
      for (let i = place; i < stop; i++, at += 8) {
        const value = view.getFloat64(at, true);
        if (!(abs(value) < 1e12)) throw new RangeError('A tile of the saved state holds a number that is not finite.');
        values[i] = value;
      }
    }
    place = stop;
  }
  return at;
}
