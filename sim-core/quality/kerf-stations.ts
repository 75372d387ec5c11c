import type { PathGeometry } from '../drill/path-geometry.ts';
import type { CutRecord } from './cut-record.ts';
import { type KerfSection, readSection } from './kerf-section.ts';
import type { MetalReader } from './metal-reader.ts';
import { resolvedHeightUm } from './profile-height.ts';
import { QUALITY } from './quality-constants.ts';

/** The sections read along a line, gathered by place. Widths and faces are means over the sections of a place. */
export interface KerfStations {
  /** All of them, from the start of the line on, and their distance, mm. */
  sections: readonly KerfSection[];
  sectionMm: number;
  /** True where every layer of every section is open. */
  isOpen(place: number): boolean;
  /** Depth of the open space, and width of its top where it is a groove, mm, means of the sections. */
  depthMm(place: number): number;
  grooveWidthMm(place: number): number;
  /** Width between the faces in a layer, mm; null where one of them is missing. */
  widthMm(place: number, layer: number): number | null;
  /** Where a face stands in each layer, left of the line positive, mm; NaN where there is none. */
  face(place: number, side: 'left' | 'right'): Float64Array;
  /**
   * Profile height that the metal shows at half depth beyond the beat of a straight face with the cells, micrometres: a notch. 0
   * where it shows none.
   */
  resolvedHeightUm(place: number): number;
}

export function createKerfStations(
  reader: MetalReader,
  geometry: PathGeometry,
  record: CutRecord,
  slantTan: number,
): KerfStations {
  const perPlace = QUALITY.sectionsPerPlace;
  const sectionMm = record.placeMm / perPlace;
  const sections: KerfSection[] = [];
  for (let n = 0; n < record.places * perPlace; n++) {
    const place = (n / perPlace) | 0;
    const middle = Number.isNaN(record.offsetMm[place]!)
      ? { offsetMm: 0, leanTan: slantTan }
      : { offsetMm: record.offsetMm[place]!, leanTan: record.leftTan[place]! };
    sections.push(readSection(reader, geometry.pointAt((n + 0.5) * sectionMm), middle));
  }
  const half = (reader.grid.layers / 2) | 0;
  const heights = (['left', 'right'] as const).map((side) => {
    const face = sections.map((section) => section[side][half]!);
    return face.map((_, n) => resolvedHeightUm(face, n, sectionMm));
  });
  const of = (place: number): KerfSection[] => sections.slice(place * perPlace, (place + 1) * perPlace);

  return {
    sections,
    sectionMm,
    isOpen: (place) => of(place).every((section) => section.open.every((open) => open === 1)),
    depthMm: (place) => meanOf(of(place).map((section) => section.depthMm)),
    grooveWidthMm: (place) => meanOf(of(place).map((section) => section.grooveWidthMm)),
    widthMm(place, layer) {
      const width = meanOf(of(place).map((section) => section.left[layer]! - section.right[layer]!));
      return Number.isNaN(width) ? null : width;
    },
    face: (place, side) =>
      Float64Array.from({ length: reader.grid.layers }, (_, layer) => meanOf(of(place).map((section) => section[side][layer]!))),
    resolvedHeightUm(place) {
      const seen = heights.flatMap((height) => height.slice(place * perPlace, (place + 1) * perPlace));
      const mean = meanOf(seen.filter((height) => !Number.isNaN(height)));
      const beyond = mean - QUALITY.notchCells * reader.grid.cellMm * 1000;
      return beyond > 0 ? beyond : 0;
    },
  };
}

/** NaN where one is NaN, and of none. */
function meanOf(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
