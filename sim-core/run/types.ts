import type { MaterialId } from '../materials/material-id.ts';
import type { EnergyLedger } from '../physics/energy-ledger.ts';
import type { RigFit, Surface } from '../physics/rig-fit.ts';
import type { Usage, Wear } from '../physics/wear.ts';

/** Ticks per second of the fixed-step simulation. Input is stamped with tick numbers, never with a clock. */
export const TICK_HZ = 240;

/** Name of the core. Any change of physics or of marking changes it; a run made by another one is shown, not re-judged. */
export const CORE_VERSION = '2.7.0';

/** Name of the physics alone: of the core by which its goldens were last pinned. A saved state belongs to it, however runs are marked. */
export const PHYSICS_VERSION = '2.3.0';

/** Invented classes of rig, named after the greatest current of their dial in ampere. */
export type RigId = '40' | '60' | '100';

export interface PointMm {
  xMm: number;
  yMm: number;
}

/**
 * Everything the physics needs to know before the first tick.
 * The plate fills 0 < x < lengthMm, 0 < y < widthMm, -thicknessMm < z < 0; z = 0 is the top surface.
 */
export interface SimulationSetup {
  material: MaterialId;
  thicknessMm: number;
  lengthMm: number;
  widthMm: number;
  /** Closed outlines (3 points or more) where there is no metal when the run starts. */
  cutouts?: PointMm[][];
  /** Where the plate rests; a severed piece that holds none of these points falls. Empty or absent: nothing falls. */
  supports?: PointMm[];
  /** What lies on the top surface; absent = bare. */
  surface?: Surface;
  /** Two plates one on the other: between these depths, mm, there is air. */
  airGap?: { fromMm: number; toMm: number };
  rig: RigId;
  currentA: number;
  /** How the rig is fitted out and set; absent = `fitFor('cut', currentA)`. */
  fit?: RigFit;
  /** Seed of the core's own randomness, 0 to 2^32 - 1. */
  seed: number;
}

/** One tick of the hand, quantised before the core sees it: lengths in 0.01 mm, angles in 0.05 deg, all integers. */
export interface HandTick {
  /** Tip position in the plate frame, 0.01 mm. */
  x: number;
  y: number;
  /** Height of the tip above the top surface, 0.01 mm; 0 = the tip touches. */
  height: number;
  /** Lean of the handle from the plate normal toward +x and toward +y, 0.05 deg. Axis (tip to handle) = (tan leanX, tan leanY, 1). */
  leanX: number;
  leanY: number;
  trigger: 0 | 1;
}

export const LENGTH_QUANTUM_MM = 0.01;
export const ANGLE_QUANTUM_DEG = 0.05;

/** Arc states, in the order in which a start passes through them. */
export const ARC_STATES = ['off', 'pre-flow', 'pilot', 'transferred', 'post-flow'] as const;
export type ArcStateName = (typeof ARC_STATES)[number];

/**
 * What is known after each tick; one Float64Array per field in `Samples`. NaN where there is no figure.
 * - xMm, yMm, standOffMm: tip; standOffMm is its height above the top surface
 * - speedMmPerS: tip speed in the plate plane over the last 50 ms; headingRad: its direction (kept while at rest)
 * - travelAngleDeg: lean in the plane of travel, positive = handle toward the direction of travel; workAngleDeg: across it, positive = to the left of travel
 * - arcState: index into ARC_STATES; arcVoltageV: NaN unless transferred
 * - sparkAngleDeg: trailing positive, NaN unless metal leaves the underside
 * - underMm3PerS, topMm3PerS: metal thrown per side; throughFraction: share of arc power that passes the plate
 * - blowbackMj: melt heat arrived on the torch front since the start, mJ
 * - severedMm: length of the path of the axis's foot, arc transferred, along which the line of the axis is open, since the start
 * - penetration: deepest open share of the thickness under the arc, 0 to 1
 * - meanDepthMm: depth below the top surface at which the jet meets metal; conductedW: power left in the plate
 * - doubleArcShare: share of the power that burns between the parts of the torch instead of to the plate, 0 to 1
 * - arcLeanDeg: how far the arc points off the torch's axis (wandering, a worn bore)
 * - spentLife: greatest spent share of a part's life; restrikes: strikes again with the trigger held, since the start
 */
export const SAMPLE_FIELDS = [
  'xMm',
  'yMm',
  'standOffMm',
  'speedMmPerS',
  'headingRad',
  'travelAngleDeg',
  'workAngleDeg',
  'arcState',
  'arcVoltageV',
  'sparkAngleDeg',
  'underMm3PerS',
  'topMm3PerS',
  'throughFraction',
  'blowbackMj',
  'severedMm',
  'penetration',
  'meanDepthMm',
  'conductedW',
  'doubleArcShare',
  'arcLeanDeg',
  'spentLife',
  'restrikes',
] as const;
export type SampleField = (typeof SAMPLE_FIELDS)[number];
export type Sample = Record<SampleField, number>;

/** Samples of a run, index = tick - 1 (sample i is the state after tick i + 1). `length` of them are filled. */
export interface Samples {
  length: number;
  columns: Record<SampleField, Float64Array>;
}

/** Metal in flight this tick, for the scene. Directions are unit vectors in the plate frame; rates in mm3/s. */
export interface Ejecta {
  underRateMm3PerS: number;
  underXMm: number;
  underYMm: number;
  underDirX: number;
  underDirY: number;
  underDirZ: number;
  topRateMm3PerS: number;
  topXMm: number;
  topYMm: number;
  topZMm: number;
  topDirX: number;
  topDirY: number;
  topDirZ: number;
}

/** A piece that has come away: it fell at `tick`. Its cells are those whose entry in `pieceOf` is `id`. */
export interface FallenPiece {
  id: number;
  tick: number;
  centreXMm: number;
  centreYMm: number;
  areaMm2: number;
}

/** Grid of the metal field for views. Cell (ix, iy) covers x0Mm + ix * cellMm ... ; tiles are tileCells x tileCells. */
export interface FieldGrid {
  cellMm: number;
  nx: number;
  ny: number;
  layers: number;
  layerMm: number;
  x0Mm: number;
  y0Mm: number;
  tileCells: number;
  tilesX: number;
  tilesY: number;
  heatCellsPerTile: number;
}

/** What the scene shows of one tile. Arrays are filled by `readTile`; sizes are tileCells^2 and heatCellsPerTile^2. */
export interface TileView {
  /** Depth of open space below the top surface down to the first metal, mm (thickness where the column is open). */
  topDepthMm: Float32Array;
  /** Height of open space above the underside up to the first metal, mm (thickness where the column is open). */
  bottomRiseMm: Float32Array;
  /** 0 = in place, n = belongs to fallen piece n. */
  pieceOf: Uint8Array;
  /** Temperature of the hottest layer, degC. */
  temperatureC: Float32Array;
}

/**
 * The core. `step` is the only thing that changes it; the same setup and inputs give the same digests everywhere.
 * Objects returned by getters are reused: copy what must be kept.
 */
export interface Simulation {
  readonly setup: SimulationSetup;
  /** Ticks stepped so far. */
  readonly tick: number;
  readonly sample: Readonly<Sample>;
  readonly ejecta: Readonly<Ejecta>;
  readonly ledger: Readonly<EnergyLedger>;
  readonly fallen: readonly FallenPiece[];
  /** Wear of the torch's parts now, and what was used up since the start. */
  readonly wear: Readonly<Wear>;
  readonly usage: Readonly<Usage>;
  readonly grid: Readonly<FieldGrid>;
  step(input: HandTick): void;
  /** Digest of the whole history up to the last full second plus the state now, 16 hex digits. */
  digest(): string;
  /** The whole state as bytes; `restore` of them, at any later time, continues byte-equal. */
  save(): Uint8Array;
  /** Throws RangeError where the bytes are not a state of this setup and core. */
  restore(bytes: Uint8Array): void;
  /** Tile numbers (ty * tilesX + tx) whose metal or heat changed since the last call. View state only: never affects the physics. */
  takeChangedTiles(): number[];
  readTile(tile: number, out: TileView): void;
  /** Heat that the plate holds now, J above ambient, summed over the field. For checks of the ledger: it reads every cell. */
  heldJ(): number;
  /** Share of metal gone at a place, 0 to 1; depth below the top surface, mm. 1 outside the plate. */
  goneAt(xMm: number, yMm: number, depthMm: number): number;
  /** As `goneAt`, but a piece that has fallen is looked at as if it lay where it was cut: what the faces of a kerf are read from. */
  cutAt(xMm: number, yMm: number, depthMm: number): number;
  /** True where the line of the torch axis through (x, y) on the top surface, leaning as given, is open from top to underside. */
  isOpenAlongAxis(xMm: number, yMm: number, leanXDeg: number, leanYDeg: number): boolean;
}
