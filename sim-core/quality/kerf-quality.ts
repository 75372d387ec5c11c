import type { PathGeometry, PathPlace } from '../drill/path-geometry.ts';
import type { MaterialId } from '../materials/material-id.ts';
import { MATERIALS } from '../materials/materials.ts';
import { cos, RAD_PER_DEG, sin, tan } from '../math/elementary.ts';
import type { Samples } from '../run/types.ts';
import { type CutFaces, cutFaces } from './cut-faces.ts';
import { type CutRecord, recordCut } from './cut-record.ts';
import { dragFromSparkMm } from './drag-line.ts';
import { type Dross, estimateDross, NO_DROSS } from './dross.ts';
import { faceSquarenessMm } from './face-squareness.ts';
import { heatAffectedMm } from './heat-affected.ts';
import { rz5RangeOf, uRangeOf } from './iso-9013.ts';
import { createKerfStations, type KerfStations } from './kerf-stations.ts';
import type { MetalReader } from './metal-reader.ts';
import { profileHeightUm } from './profile-height.ts';
import { type QualitySummary, summariseQuality } from './quality-summary.ts';

/**
 * How a mm of the line came out. cut: open from top to underside; uncut: the arc removed metal but did not get through
 * everywhere; untouched: metal that the arc never reached; no-metal: beside the plate or over an opening.
 */
export type PlaceState = 'cut' | 'uncut' | 'untouched' | 'no-metal';

/** Cut quality of one place of the line. ESTIMATES for training; null where there is no figure. */
export interface QualityPlace {
  /** Middle of the place along the line, mm, and the middle of the kerf there on the top surface, plate frame. */
  sMm: number;
  xMm: number;
  yMm: number;
  headingRad: number;
  /** Last tick, counted from 1, at which the arc was there; 0 = never. */
  tick: number;
  state: PlaceState;
  /** Between the faces in the top and the bottom layer; where it is not through, the top is that of the groove. */
  topWidthMm: number | null;
  bottomWidthMm: number | null;
  /** Depth of the kerf or groove where it is deepest, mm. */
  depthMm: number;
  /** Squareness of the left face, the right face, and the worse of the two, mm; ISO 9013 range 1 to 5 of it, null beyond. */
  uLeftMm: number | null;
  uRightMm: number | null;
  uMm: number | null;
  uRange: number | null;
  dragMm: number | null;
  rz5Um: number | null;
  rz5Range: number | null;
  dross: Dross;
  heatAffectedMm: number;
}

export interface QualityOptions {
  material: MaterialId;
  thicknessMm: number;
  /** Work angle of an intended bevel, deg, positive = handle to the left of travel; 0 for a square cut. */
  bevelDeg?: number;
}

export interface KerfQuality {
  perMm: QualityPlace[];
  summary: QualitySummary;
  /** The faces themselves, for measuring on them. */
  faces: CutFaces;
}

/** Metal removed per mm of line and of thickness under which the arc counts as not having cut, mm. */
const LEAST_CUT_WIDTH_MM = 0.02;

/**
 * Quality of the cut along a line, from the metal after the run and the samples of the run. Widths and squareness are read from
 * the metal; the drag from the spark angle, dross from how the metal left, the heat-affected width from the heat left per mm,
 * and the profile height from what makes it rough and what of it the metal shows. Pure.
 */
export function kerfQuality(reader: MetalReader, geometry: PathGeometry, samples: Samples, options: QualityOptions): KerfQuality {
  const record = recordCut(geometry, samples);
  const slantTan = options.bevelDeg ? tan(options.bevelDeg * RAD_PER_DEG) : 0;
  const cutThicknessMm = options.thicknessMm * Math.sqrt(1 + slantTan * slantTan);
  const stations = createKerfStations(reader, geometry, record, slantTan);
  const perMm: QualityPlace[] = [];
  for (let p = 0; p < record.places; p++) {
    const sMm = (p + 0.5) * record.placeMm;
    const place = blankPlace(geometry.pointAt(sMm), sMm);
    perMm.push(place);
    place.tick = record.tick[p]!;
    place.state = placeState(stations, record, p, options.thicknessMm);
    if (place.state === 'no-metal' || place.state === 'untouched') continue;
    place.xMm -= record.offsetMm[p]! * sin(place.headingRad);
    place.yMm += record.offsetMm[p]! * cos(place.headingRad);
    place.depthMm = stations.depthMm(p);
    if (place.state === 'uncut') place.topWidthMm = figure(stations.grooveWidthMm(p));
    else fillFaces(place, stations, p, reader.grid, slantTan, cutThicknessMm);
    fillEstimates(place, stations, record, p, options);
    if (place.rz5Um !== null) place.rz5Range = rz5RangeOf(place.rz5Um, cutThicknessMm);
  }
  return {
    perMm,
    summary: summariseQuality(perMm, record.placeMm, cutThicknessMm),
    faces: cutFaces(stations.sections, stations.sectionMm, reader.grid),
  };
}

function blankPlace(middle: PathPlace, sMm: number): QualityPlace {
  return {
    sMm,
    ...middle,
    tick: 0,
    state: 'no-metal',
    topWidthMm: null,
    bottomWidthMm: null,
    depthMm: 0,
    uLeftMm: null,
    uRightMm: null,
    uMm: null,
    uRange: null,
    dragMm: null,
    rz5Um: null,
    rz5Range: null,
    dross: NO_DROSS,
    heatAffectedMm: 0,
  };
}

function placeState(stations: KerfStations, record: CutRecord, p: number, thicknessMm: number): PlaceState {
  const removed = record.underMm2[p]! + record.topMm2[p]! > LEAST_CUT_WIDTH_MM * thicknessMm;
  if (removed) return stations.isOpen(p) ? 'cut' : 'uncut';
  return stations.isOpen(p) ? 'no-metal' : 'untouched';
}

function fillFaces(
  place: QualityPlace,
  stations: KerfStations,
  p: number,
  grid: MetalReader['grid'],
  slantTan: number,
  cutThicknessMm: number,
): void {
  place.topWidthMm = stations.widthMm(p, 0);
  place.bottomWidthMm = stations.widthMm(p, grid.layers - 1);
  const left = faceSquarenessMm(stations.face(p, 'left'), grid.layerMm, slantTan);
  const right = faceSquarenessMm(stations.face(p, 'right'), grid.layerMm, slantTan);
  place.uLeftMm = figure(left);
  place.uRightMm = figure(right);
  place.uMm = figure(left > right || Number.isNaN(right) ? left : right);
  if (place.uMm !== null) place.uRange = uRangeOf(place.uMm, cutThicknessMm);
}

function fillEstimates(place: QualityPlace, stations: KerfStations, record: CutRecord, p: number, options: QualityOptions): void {
  const { thicknessMm, material } = options;
  const through = place.state === 'cut';
  const sparkAngleDeg = record.sparkAngleDeg[p]!;
  const throughFraction = record.throughFraction[p]!;
  const dragMm = through ? dragFromSparkMm(sparkAngleDeg, record.aheadTan[p]!, thicknessMm) : Number.NaN;
  place.dragMm = figure(dragMm);
  place.dross = estimateDross({ sparkAngleDeg, throughFraction, underMm2: record.underMm2[p]!, topMm2: record.topMm2[p]! });
  place.heatAffectedMm = heatAffectedMm(
    MATERIALS[material],
    thicknessMm,
    { perMmJ: record.heatJPerMm[p]!, nearbyJ: record.nearbyHeatJ[p]! },
    through,
  );
  if (!through) return;
  const unresolvedUm = profileHeightUm({
    thicknessMm,
    dragMm,
    sparkNoiseDeg: record.sparkNoiseDeg[p]!,
    speedVariation: record.speedVariation[p]!,
    throughFraction,
    arcLeanDeg: record.arcLeanDeg[p]!,
  });
  const resolvedUm = stations.resolvedHeightUm(p);
  place.rz5Um = Math.sqrt(unresolvedUm * unresolvedUm + resolvedUm * resolvedUm);
}

function figure(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
