import type { Jet, JetPose } from './jet.ts';
import type { MetalField } from './metal-field.ts';

/**
 * How far each layer must slide, in whole cells, so that a column of equal index lies along the leaning axis: rays become
 * columns, whatever the lean. Neighbouring layers that slide alike make a band.
 */
export interface LayerShifts {
  x: Int32Array;
  y: Int32Array;
  /** From the address of a column's top cell to that of the cell that its ray meets in each layer. */
  address: Int32Array;
  /** Per band: the layer after its last, and its shift. `bands.count` of them are in use. */
  bandEnd: Int32Array;
  bandX: Int32Array;
  bandY: Int32Array;
  /** The shift as a distance between columns. */
  bandColumn: Int32Array;
  bands: { count: number };
}

export function createLayerShifts(layers: number): LayerShifts {
  return {
    x: new Int32Array(layers),
    y: new Int32Array(layers),
    address: new Int32Array(layers),
    bandEnd: new Int32Array(layers),
    bandX: new Int32Array(layers),
    bandY: new Int32Array(layers),
    bandColumn: new Int32Array(layers),
    bands: { count: 0 },
  };
}

export function alignLayers(shifts: LayerShifts, metal: MetalField, pose: JetPose): void {
  const { nx, layers, layerMm, cellMm } = metal;
  const { leanTanX, leanTanY } = pose;
  const { x, y, address, bandEnd, bandX, bandY, bandColumn, bands } = shifts;
  let count = 0;
  for (let k = 0; k < layers; k++) {
    const depth = (k + 0.5) * layerMm;
    const shiftX = nearest((-leanTanX * depth) / cellMm);
    const shiftY = nearest((-leanTanY * depth) / cellMm);
    x[k] = shiftX;
    y[k] = shiftY;
    address[k] = (shiftY * nx + shiftX) * layers + k;
    if (count === 0 || bandX[count - 1] !== shiftX || bandY[count - 1] !== shiftY) {
      bandX[count] = shiftX;
      bandY[count] = shiftY;
      bandColumn[count] = shiftY * nx + shiftX;
      count++;
    }
    bandEnd[count - 1] = k + 1;
  }
  bands.count = count;
}

function nearest(x: number): number {
  return x < 0 ? -((0.5 - x) | 0) : (x + 0.5) | 0;
}

/** First layer with metal along the ray that enters at cell (ix, iy); `layers` where the ray passes. Off the grid there is no metal. */
export function firstMetal(jet: Jet, metal: MetalField, ix: number, iy: number, anyFallen: boolean): number {
  const { nx, ny, layers, gone, pieceOf, openedTo } = metal;
  const { bandEnd, bandX, bandY, bands } = jet.shifts;
  let k = 0;
  for (let band = 0; band < bands.count; band++) {
    const end = bandEnd[band]!;
    const cx = ix + bandX[band]!;
    const cy = iy + bandY[band]!;
    if (cx >= 0 && cx < nx && cy >= 0 && cy < ny) {
      const column = cy * nx + cx;
      if (!(anyFallen && pieceOf[column]! > 0)) {
        const opened = openedTo[column]!;
        const from = k;
        if (k < opened) k = opened;
        const base = column * layers;
        while (k < end && gone[base + k]! >= 1) k++;
        if (from <= opened && k > opened) openedTo[column] = k;
        if (k < end) return k;
      }
    }
    k = end;
  }
  return layers;
}

/** Depth of the first metal, in layers, along the ray that enters at cell (ix, iy) and meets it in layer k. */
export function depthAt(jet: Jet, metal: MetalField, ix: number, iy: number, k: number): number {
  const { nx, layers, gone } = metal;
  return k < layers ? k + gone[((iy + jet.shifts.y[k]!) * nx + ix + jet.shifts.x[k]!) * layers + k]! : layers;
}
