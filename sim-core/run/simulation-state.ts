import { type EnthalpyTable, enthalpyTable } from '../materials/enthalpy-table.ts';
import type { MaterialId } from '../materials/material-id.ts';
import { MATERIALS } from '../materials/materials.ts';
import { type Arc, type ArcSource, createArc } from '../physics/arc.ts';
import type { EnergyLedger } from '../physics/energy-ledger.ts';
import type { TorchParts } from '../physics/follow-torch.ts';
import { createHeatField, type HeatField } from '../physics/heat-field.ts';
import { createHeatWindow, type HeatWindow } from '../physics/heat-window.ts';
import { createJet, type Jet } from '../physics/jet.ts';
import { createKinematics, createTrail, type Kinematics, type Trail } from '../physics/kinematics.ts';
import { createLooseLook, type LooseLook } from '../physics/loose-look.ts';
import { createMetalField, type MetalField } from '../physics/metal-field.ts';
import { MODEL } from '../physics/model-constants.ts';
import { jetOfNozzle } from '../physics/nozzle.ts';
import { RIGS } from '../physics/rig.ts';
import { dialOf, NOZZLES } from '../physics/rig-fit.ts';
import { createSeveredPath, type SeveredPath } from '../physics/severed-path.ts';
import { createSparkFront, type SparkFront } from '../physics/spark-front.ts';
import { type Ahead, PLACES_AROUND } from '../physics/surroundings.ts';
import { torchFitness } from '../physics/torch-fitness.ts';
import { createTorchLuck } from '../physics/torch-luck.ts';
import { createDigest, type Digest } from './digest.ts';
import type { WholeSetup } from './own-setup.ts';
import { createTileMarks, mark, type TileMarks } from './tile-marks.ts';
import type { FallenPiece, SimulationSetup } from './types.ts';

/** Running figures that outlive a tick. */
export interface Totals {
  tick: number;
  blowbackMj: number;
  meanDepthMm: number;
  metShare: number;
  blindShare: number;
  openAround: number;
}

/** Everything that changes while a run goes on, and the tables it is stepped with. */
export interface SimulationState {
  setup: WholeSetup;
  source: ArcSource;
  table: EnthalpyTable;
  metal: MetalField;
  heat: HeatField;
  window: HeatWindow;
  jet: Jet;
  arc: Arc;
  motion: Kinematics;
  trail: Trail;
  front: SparkFront;
  severed: SeveredPath;
  ledger: EnergyLedger;
  totals: Totals;
  ahead: Ahead;
  /** Parts, gas and return path: `torch.wear`, `torch.usage` and `torch.luck` change. */
  torch: TorchParts;
  rolling: Digest;
  fallen: FallenPiece[];
  /**
   * Marks of what changed: since its bytes were last taken, and since the last full second (metal under the tile's number,
   * heat under that plus the number of tiles); since a view last asked (per tile).
   */
  stale: TileMarks;
  sinceSecond: TileMarks;
  forView: TileMarks;
  /** Metal tiles changed since the last look for loose pieces, and what it came to. */
  sinceLook: TileMarks;
  look: LooseLook;
}

const LONGEST_MM = 600;

/** Checks a setup. Throws RangeError with one sentence that names the field. */
export function checkSetup(setup: SimulationSetup): void {
  if (!(setup.material in MATERIALS))
    throw new RangeError(`The metal '${String(setup.material)}' is not known: ${Object.keys(MATERIALS).join(', ')}.`);
  if (!(setup.rig in RIGS)) throw new RangeError(`The rig '${String(setup.rig)}' is not known: ${Object.keys(RIGS).join(', ')}.`);
  within('thicknessMm', setup.thicknessMm, 0.5, 60);
  within('lengthMm', setup.lengthMm, 5, LONGEST_MM);
  within('widthMm', setup.widthMm, 5, LONGEST_MM);
  const { fromMm, toMm } = setup.airGap ?? { fromMm: 0, toMm: 0 };
  if (toMm !== 0 && !(fromMm > 0 && fromMm < toMm && toMm < setup.thicknessMm)) {
    throw new RangeError(`The air gap, ${fromMm} to ${toMm} mm, does not lie inside the ${setup.thicknessMm} mm of the plate.`);
  }
  const mode = setup.fit?.mode ?? 'cut';
  const { lowA, highA } = dialOf(RIGS[setup.rig], mode);
  if (!(setup.currentA >= lowA && setup.currentA <= highA)) {
    throw new RangeError(
      `The current, ${setup.currentA} A, is off the dial of the ${setup.rig} A rig in the mode '${mode}': ${lowA} to ${highA} A.`,
    );
  }
  if (!(setup.seed >= 0 && setup.seed <= 4294967295 && setup.seed % 1 === 0)) {
    throw new RangeError(`The seed, ${setup.seed}, is not a whole number from 0 to 4294967295.`);
  }
}

function within(name: string, value: number, low: number, high: number): void {
  if (!(value >= low && value <= high))
    throw new RangeError(`The plate's ${name}, ${value}, is not between ${low} and ${high} mm.`);
}

export function createSimulationState(setup: WholeSetup): SimulationState {
  checkSetup(setup);
  const table = tableOf(setup.material);
  const metal = createMetalField(setup, MODEL.cellMm);
  const fitness = torchFitness(setup.fit, setup.currentA, setup.surface);
  const widening = NOZZLES[setup.fit.nozzle].jetWidening * fitness.softening;
  const tiles = metal.tilesX * metal.tilesY;
  const heat = heatUnder(metal);
  return {
    setup,
    table,
    metal,
    heat,
    window: createHeatWindow(heat, table, metal.tilesX, metal.tilesY),
    jet: createJet(metal, heat, jetOfNozzle(setup.currentA, widening, table.thrownJPerMm3)),
    torch: {
      fit: setup.fit,
      fitness,
      luck: createTorchLuck(setup.seed),
      wear: { ...setup.fit.wear },
      usage: { starts: 0, restrikes: 0, hardStops: 0, arcS: 0, pilotS: 0, gasL: 0 },
    },
    source: { rig: RIGS[setup.rig], mode: setup.fit.mode, fitness },
    arc: createArc(),
    motion: createKinematics(),
    trail: createTrail(),
    front: createSparkFront(),
    severed: createSeveredPath(),
    ledger: { deliveredJ: 0, removedJ: 0, conductedJ: 0, throughJ: 0 },
    totals: { tick: 0, blowbackMj: 0, meanDepthMm: 0, metShare: 0, blindShare: 0, openAround: PLACES_AROUND },
    ahead: { driftX: 0, driftY: 0, open: 0 },
    rolling: createDigest(),
    fallen: [],
    stale: createTileMarks(2 * tiles),
    sinceSecond: createTileMarks(2 * tiles),
    forView: createTileMarks(tiles),
    sinceLook: createTileMarks(tiles),
    look: createLooseLook(metal, setup),
  };
}

/** A table costs some milliseconds and depends on nothing but the metal: one of each is kept. */
const tables = new Map<MaterialId, EnthalpyTable>();

function tableOf(material: MaterialId): EnthalpyTable {
  const known = tables.get(material);
  if (known) return known;
  const table = enthalpyTable(MATERIALS[material]);
  tables.set(material, table);
  return table;
}

/** Heat cells under the metal cells, each with its share of metal. */
function heatUnder(metal: MetalField): HeatField {
  const ratio = MODEL.heatCellMm / metal.cellMm;
  const group = MODEL.layersPerHeatLayer;
  const heat = createHeatField(metal.nx / ratio, metal.ny / ratio, metal.layers / group, MODEL.heatCellMm, metal.layerMm * group);
  for (let hy = 0; hy < heat.ny; hy++) {
    for (let hx = 0; hx < heat.nx; hx++)
      if (metal.gapTo > metal.gapFrom || openCells(metal, hx, hy, ratio) > 0) fillMetalShare(metal, heat, hx, hy);
  }
  return heat;
}

function openCells(metal: MetalField, hx: number, hy: number, ratio: number): number {
  let open = 0;
  for (let y = 0; y < ratio; y++) {
    const start = (hy * ratio + y) * metal.nx + hx * ratio;
    for (let x = 0; x < ratio; x++) open += metal.openAtStart[start + x]!;
  }
  return open;
}

/** Share of metal in the heat cells of one place, as it was at the start. */
export function fillMetalShare(metal: MetalField, heat: HeatField, hx: number, hy: number): void {
  const ratio = metal.nx / heat.nx;
  const share = 1 - openCells(metal, hx, hy, ratio) / (ratio * ratio);
  const group = MODEL.layersPerHeatLayer;
  for (let k = 0; k < heat.layers; k++) {
    let air = 0;
    for (let layer = k * group; layer < (k + 1) * group; layer++) if (layer >= metal.gapFrom && layer < metal.gapTo) air++;
    heat.metal[(k * heat.ny + hy) * heat.nx + hx] = share * (1 - air / group);
  }
}

/** Marks a tile's metal, and its heat, which the jet changes too. */
export function touchMetal(state: SimulationState, tx: number, ty: number): void {
  const { tilesX, tilesY } = state.metal;
  if (tx < 0 || ty < 0 || tx >= tilesX || ty >= tilesY) return;
  const tile = ty * tilesX + tx;
  mark(state.stale, tile);
  mark(state.sinceSecond, tile);
  mark(state.sinceLook, tile);
  touchHeat(state, tx, ty);
}

/** Marks a tile's heat. */
export function touchHeat(state: SimulationState, tx: number, ty: number): void {
  const { tilesX, tilesY } = state.metal;
  if (tx < 0 || ty < 0 || tx >= tilesX || ty >= tilesY) return;
  const tile = ty * tilesX + tx;
  mark(state.stale, tilesX * tilesY + tile);
  mark(state.sinceSecond, tilesX * tilesY + tile);
  mark(state.forView, tile);
}
