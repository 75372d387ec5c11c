import { abs } from '../math/elementary.ts';
import type { HeatField } from '../physics/heat-field.ts';
import { type MetalField, TILE_CELLS } from '../physics/metal-field.ts';

/**
 * One tile of metal and heat as bytes, exact to the last bit: runs of whole (0) and of open (1) cells by their length,
 * everything else as the eight bytes of its number.
 */
const number = new Float64Array(1);
const octets = new Uint8Array(number.buffer);
let scratch = new Uint8Array(1 << 16);

const ZEROS = 0;
const ONES = 1;
const LITERALS = 2;

/** Bytes of tile `tile`; a fresh array. */
export function encodeTile(metal: MetalField, heat: HeatField, tile: number): Uint8Array {
  const { nx, layers, tilesX } = metal;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  const side = heat.nx / tilesX;
  const worst = TILE_CELLS * TILE_CELLS * (layers * 9 + 9) + side * side * heat.layers * 18 + 64;
  if (scratch.length < worst) scratch = new Uint8Array(worst);
  let end = 0;
  for (let iy = ty * TILE_CELLS; iy < (ty + 1) * TILE_CELLS; iy++) {
    const from = (iy * nx + tx * TILE_CELLS) * layers;
    end = encodeRuns(metal.gone, from, from + TILE_CELLS * layers, end);
  }
  for (let iy = ty * TILE_CELLS; iy < (ty + 1) * TILE_CELLS; iy++) {
    const from = iy * nx + tx * TILE_CELLS;
    end = encodeRuns(metal.pieceOf, from, from + TILE_CELLS, end);
  }
  for (let k = 0; k < heat.layers; k++) {
    for (let iy = ty * side; iy < (ty + 1) * side; iy++) {
      const from = (k * heat.ny + iy) * heat.nx + tx * side;
      end = encodeRuns(heat.heatJ, from, from + side, end);
      end = encodeRuns(heat.metal, from, from + side, end);
    }
  }
  return scratch.slice(0, end);
}

function encodeRuns(values: Float64Array | Uint8Array, from: number, to: number, start: number): number {
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
      for (let i = at; i < stop; i++) {
        number[0] = values[i]!;
        for (let b = 0; b < 8; b++) scratch[end++] = octets[b]!;
      }
    }
    at = stop;
  }
  return end;
}

/** Puts the bytes back into tile `tile`. Throws RangeError where they do not fit it. */
export function decodeTile(metal: MetalField, heat: HeatField, tile: number, bytes: Uint8Array): void {
  const { nx, layers, tilesX } = metal;
  const ty = (tile / tilesX) | 0;
  const tx = tile - ty * tilesX;
  const side = heat.nx / tilesX;
  let at = 0;
  for (let iy = ty * TILE_CELLS; iy < (ty + 1) * TILE_CELLS; iy++) {
    const from = (iy * nx + tx * TILE_CELLS) * layers;
    at = decodeRuns(bytes, at, metal.gone, from, from + TILE_CELLS * layers);
  }
  for (let iy = ty * TILE_CELLS; iy < (ty + 1) * TILE_CELLS; iy++) {
    const from = iy * nx + tx * TILE_CELLS;
    at = decodeRuns(bytes, at, metal.pieceOf, from, from + TILE_CELLS);
  }
  for (let k = 0; k < heat.layers; k++) {
    for (let iy = ty * side; iy < (ty + 1) * side; iy++) {
      const from = (k * heat.ny + iy) * heat.nx + tx * side;
      at = decodeRuns(bytes, at, heat.heatJ, from, from + side);
      at = decodeRuns(bytes, at, heat.metal, from, from + side);
    }
  }
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
      for (let i = place; i < stop; i++) {
        for (let b = 0; b < 8; b++) octets[b] = bytes[at++]!;
        if (!(abs(number[0]!) < 1e12)) throw new RangeError('A tile of the saved state holds a number that is not finite.');
        values[i] = number[0]!;
      }
    }
    place = stop;
  }
  return at;
}
