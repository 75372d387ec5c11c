import type { EnthalpyTable } from '../materials/enthalpy-table.ts';
import { PI } from '../math/elementary.ts';
import { alignLayers, createLayerShifts, type LayerShifts } from './align-layers.ts';
import type { HeatField } from './heat-field.ts';
import { heatWalls } from './heat-walls.ts';
import { type MeltedRays, meltRays } from './melt-rays.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';
import { findWayOut, PLACES_AROUND, readSurroundings, type Surroundings, type WayOut } from './surroundings.ts';
import { createTracedRays, type TracedRays, traceRays } from './trace-rays.ts';

/** Where the jet is and how it points. The axis from tip to handle is (leanTanX, leanTanY, 1); the jet runs the other way. */
export interface JetPose {
  xMm: number;
  yMm: number;
  heightMm: number;
  leanTanX: number;
  leanTanY: number;
  /** Unit vector of travel in the plate plane. */
  headingX: number;
  headingY: number;
}

/** What one tick of the jet did; reused from tick to tick. Energies J and volumes mm3 add up over its parts; depths mm and shares are the last part's. */
export interface JetOutcome {
  deliveredJ: number;
  throughJ: number;
  /** Carried off above by the gas that glances off the floor of a groove. */
  glancedJ: number;
  conductedJ: number;
  removedJ: number;
  underMm3: number;
  topMm3: number;
  /** Share of the jet's power that met metal. */
  metShare: number;
  /** Of the places around the jet, how many are open from top to underside. */
  openAround: number;
  /** Depth below the top surface at which the jet meets metal, power-weighted; 0 where it meets none. */
  meanDepthMm: number;
  /** Width of the hole that the jet makes, mm. */
  holeWidthMm: number;
  /** Deepest place that the jet meets, as a share of the thickness; 1 where any of it passes. */
  penetration: number;
  /** Share of melt that gets out of the hole. */
  escape: number;
  /** 1 where all melt leaves below, 0 where all of it leaves above. */
  underShare: number;
  /** Where melt comes out above, from the axis's foot on the top surface, mm. */
  mouthX: number;
  mouthY: number;
  /** Slope of the floor around the jet: d depth / dx and d depth / dy. */
  floorSlopeX: number;
  floorSlopeY: number;
}

/** A burst of the jet: a tick or part of one. `openShare` is the share of the jet that passed through before. */
export interface JetBurst {
  powerW: number;
  stepS: number;
  openShare: number;
  /** 1 where the jet was in a blind hole before, 0 where all melt left below. */
  blindShare: number;
}

/** What a nozzle makes of its jet; see nozzle.ts. */
export type JetOfNozzle = Pick<Jet, 'jetRadiusMm' | 'openSpread' | 'liftWeight'>;

/** The jet of a torch and its scratch memory, allocated once: nothing in it outlives a burst. */
export interface Jet {
  jetRadiusMm: number;
  /** Growth of its radius per mm above the plate. */
  openSpread: number;
  /** How hard the melt is to lift out of a blind hole, from `liftWeight`. */
  liftWeight: number;
  /** Set before each burst. A record, because numbers handed to a function as arguments would be allocated. */
  burst: JetBurst;
  outcome: JetOutcome;
  rays: TracedRays;
  surroundings: Surroundings;
  wayOut: WayOut;
  melted: MeltedRays;
  shifts: LayerShifts;
  /** Offset of each metal layer's heat layer. */
  heatPlane: Int32Array;
}

export function createJet(metal: MetalField, heat: HeatField, nozzle: JetOfNozzle): Jet {
  const heatPlane = new Int32Array(metal.layers);
  for (let k = 0; k < metal.layers; k++) heatPlane[k] = ((k / MODEL.layersPerHeatLayer) | 0) * heat.nx * heat.ny;
  return {
    outcome: {
      deliveredJ: 0,
      throughJ: 0,
      glancedJ: 0,
      conductedJ: 0,
      removedJ: 0,
      underMm3: 0,
      topMm3: 0,
      metShare: 0,
      openAround: 0,
      meanDepthMm: 0,
      holeWidthMm: 1,
      penetration: 0,
      escape: 1,
      underShare: 0,
      mouthX: 0,
      mouthY: 0,
      floorSlopeX: 0,
      floorSlopeY: 0,
    },
    ...nozzle,
    burst: { powerW: 0, stepS: 0, openShare: 0, blindShare: 0 },
    rays: createTracedRays(),
    surroundings: { open: 0, openPlaces: 0, slopeX: 0, slopeY: 0 },
    wayOut: { widthMm: 1, climbMm: 0, offsetX: 0, offsetY: 0 },
    melted: { wallJ: 0, glancedJ: 0, throughJ: 0, conductedJ: 0, removedJ: 0, removedMm3: 0 },
    shifts: createLayerShifts(metal.layers),
    heatPlane,
  };
}

/** Clears what adds up over the parts of a tick. */
export function clearOutcome(outcome: JetOutcome): void {
  outcome.deliveredJ = 0;
  outcome.throughJ = 0;
  outcome.glancedJ = 0;
  outcome.conductedJ = 0;
  outcome.removedJ = 0;
  outcome.underMm3 = 0;
  outcome.topMm3 = 0;
}

/**
 * Parts into which a tick is cut, so that the middle of the jet eats at most so much depth in one: thin plates and metals that
 * melt easily would otherwise be pierced in steps as long as a cell.
 */
export function jetParts(
  currentA: number,
  jetRadiusMm: number,
  thicknessMm: number,
  thrownJPerMm3: number,
  tickS: number,
): number {
  const powerW = MODEL.arcEfficiency * MODEL.voltageBaseV * currentA;
  const depthMm = (1.5 * powerW * tickS) / (PI * jetRadiusMm * jetRadiusMm * thrownJPerMm3);
  const wanted = thicknessMm / 6 < MODEL.longestBiteMm ? thicknessMm / 6 : MODEL.longestBiteMm;
  let parts = 1;
  while (depthMm / parts > wanted) parts++;
  return parts;
}

/**
 * One burst of the jet on the metal: `burst.powerW` for `burst.stepS`. Each ray runs along the axis, passes open cells, and
 * meets the first metal; conduction into the heat field is paid first, what is left melts, and what can escape is removed.
 * The weights are normalised over the footprint, so that what is delivered is exactly powerW * stepS.
 */
export function applyJet(
  jet: Jet,
  metal: MetalField,
  heat: HeatField,
  table: EnthalpyTable,
  pose: JetPose,
  anyFallen: boolean,
): void {
  const { outcome, melted, burst } = jet;
  lookAlongJet(jet, metal, pose, anyFallen);
  meltRays(jet, metal, heat, table, anyFallen);
  heatWalls(jet, metal, heat);
  const energy = burst.powerW * burst.stepS;
  outcome.deliveredJ += energy;
  if (jet.rays.sum > 0) {
    outcome.throughJ += melted.throughJ;
    outcome.glancedJ += melted.glancedJ;
  } else outcome.throughJ += energy;
  outcome.conductedJ += melted.conductedJ;
  outcome.removedJ += melted.removedJ;
  outcome.underMm3 += melted.removedMm3 * outcome.underShare;
  outcome.topMm3 += melted.removedMm3 * (1 - outcome.underShare);
}

/** What a jet from this pose would meet, and where melt would go; changes nothing but `outcome`. */
export function lookAlongJet(jet: Jet, metal: MetalField, pose: JetPose, anyFallen: boolean): void {
  const { outcome, rays, surroundings, wayOut } = jet;
  const { layers, layerMm } = metal;
  alignLayers(jet.shifts, metal, pose);
  traceRays(jet, metal, pose, anyFallen);
  readSurroundings(jet, metal, pose, anyFallen);
  const throughShare = rays.sum > 0 ? (rays.sum - rays.metSum) / rays.sum : 1;
  const meanDepthMm = rays.metSum > 0 ? (rays.depthSum / rays.metSum) * layerMm : 0;
  const vent = (throughShare + surroundings.open / (2 * PLACES_AROUND)) / MODEL.ventShare;
  const underShare = vent < 1 ? vent : 1;
  if (underShare < 1) findWayOut(jet, metal, meanDepthMm, anyFallen);
  const climb = underShare < 1 ? wayOut.climbMm / wayOut.widthMm : 0;
  const square = climb * climb;
  const escapeUp = 1 / (1 + square * square * square * jet.liftWeight);
  outcome.metShare = 1 - throughShare;
  outcome.openAround = surroundings.open;
  outcome.meanDepthMm = meanDepthMm;
  outcome.holeWidthMm = 2 * rays.radiusTop;
  outcome.penetration = rays.deepest / layers;
  outcome.escape = underShare + (1 - underShare) * escapeUp;
  outcome.underShare = underShare;
  outcome.mouthX = underShare < 1 ? wayOut.offsetX : 0;
  outcome.mouthY = underShare < 1 ? wayOut.offsetY : 0;
  outcome.floorSlopeX = surroundings.slopeX;
  outcome.floorSlopeY = surroundings.slopeY;
}
