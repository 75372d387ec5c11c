import type { PathPlace } from '../drill/path-geometry.ts';
import { cos, sin } from '../math/elementary.ts';
import { goneBetween, type MetalReader } from './metal-reader.ts';
import { QUALITY } from './quality-constants.ts';

/** Where the cut was made across a section: middle on the top surface, and how far it goes to the right per mm of depth. */
export interface KerfMiddle {
  /** Left of the line positive, mm. */
  offsetMm: number;
  /** Tangent of the handle's lean to the left. */
  leanTan: number;
}

/**
 * One section across a kerf: where the two faces stand in each layer, left of the line positive, mm. NaN where there is no
 * face: the layer is closed (`open` 0), or open farther than a face is looked for.
 */
export interface KerfSection {
  left: Float64Array;
  right: Float64Array;
  open: Uint8Array;
  /** Depth of the open space where it is deepest, mm: metal gone from layer to layer summed down to the first whole one. */
  depthMm: number;
  /**
   * Width of a groove, mm: of the top layer's opening between the places where half as much is gone as where most is. Where the
   * section is open right through, that between its faces.
   */
  grooveWidthMm: number;
}

/** Reads a section square to the line at a place. */
export function readSection(reader: MetalReader, place: PathPlace, middle: KerfMiddle): KerfSection {
  const { layers, layerMm, cellMm } = reader.grid;
  const section: KerfSection = {
    left: new Float64Array(layers),
    right: new Float64Array(layers),
    open: new Uint8Array(layers),
    depthMm: 0,
    grooveWidthMm: 0,
  };
  const leftX = -sin(place.headingRad);
  const leftY = cos(place.headingRad);
  const goneIn = (layer: number, acrossMm: number): number =>
    goneBetween(reader, place.xMm + acrossMm * leftX, place.yMm + acrossMm * leftY, (layer + 0.5) * layerMm);
  for (let k = 0; k < layers; k++) {
    const depthMm = (k + 0.5) * layerMm;
    const gone = (acrossMm: number): number => goneIn(k, acrossMm);
    const from = openPlace(gone, middle.offsetMm - middle.leanTan * depthMm);
    section.open[k] = Number.isNaN(from) ? 0 : 1;
    section.left[k] = from + openLength(gone, from, 1, cellMm);
    section.right[k] = from - openLength(gone, from, -1, cellMm);
  }
  if (section.open.every((open) => open === 1)) {
    section.depthMm = layers * layerMm;
    section.grooveWidthMm = section.left[0]! - section.right[0]!;
    return section;
  }
  for (let aside = -QUALITY.middleSlackMm; aside <= QUALITY.middleSlackMm; aside += cellMm) {
    let deep = 0;
    for (let k = 0; k < layers; k++) {
      const gone = goneIn(k, middle.offsetMm + aside - middle.leanTan * (k + 0.5) * layerMm);
      if (gone < 1e-3) break;
      deep += gone * layerMm;
    }
    if (deep > section.depthMm) section.depthMm = deep;
  }
  section.grooveWidthMm = widthAtHalf((acrossMm) => goneIn(0, acrossMm), middle.offsetMm, cellMm);
  return section;
}

function widthAtHalf(gone: (acrossMm: number) => number, middleMm: number, cellMm: number): number {
  const step = cellMm / 2;
  let most = 0;
  for (let aside = -QUALITY.middleSlackMm; aside <= QUALITY.middleSlackMm; aside += step) {
    const here = gone(middleMm + aside);
    if (here > most) most = here;
  }
  if (most <= 0) return 0;
  let width = 0;
  for (const way of [1, -1]) {
    for (let out = step / 2; out < QUALITY.faceReachMm; out += step) {
      const here = gone(middleMm + way * out);
      if (here < 1e-3 && out > QUALITY.middleSlackMm) break;
      if (here >= most / 2) width += step;
    }
  }
  return width;
}

/** An open place at or beside where the arc's line passes a layer; NaN where there is none. */
function openPlace(gone: (acrossMm: number) => number, acrossMm: number): number {
  for (let aside = 0; aside <= QUALITY.middleSlackMm; aside += 0.25) {
    if (gone(acrossMm + aside) >= 0.5) return acrossMm + aside;
    if (gone(acrossMm - aside) >= 0.5) return acrossMm - aside;
  }
  return Number.NaN;
}

/** Gone metal summed outward to the first whole metal, mm; NaN where none is met. */
function openLength(gone: (acrossMm: number) => number, fromMm: number, way: 1 | -1, cellMm: number): number {
  const step = cellMm / 2;
  let length = 0;
  for (let out = step / 2; out < QUALITY.faceReachMm; out += step) {
    const here = gone(fromMm + way * out);
    if (here < 1e-3) return length;
    length += here * step;
  }
  return Number.NaN;
}
