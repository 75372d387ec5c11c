import type { EnthalpyTable } from '../materials/enthalpy-table.ts';
import type { HeatField } from './heat-field.ts';
import type { MetalField } from './metal-field.ts';
import { MODEL } from './model-constants.ts';

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
  conductedJ: number;
  removedJ: number;
  underMm3: number;
  topMm3: number;
  /** Share of the jet's power that met metal. */
  metShare: number;
  /** Depth below the top surface at which the jet meets metal, power-weighted; 0 where it meets none. */
  meanDepthMm: number;
  /** Deepest place that the jet meets, as a share of the thickness; 1 where any of it passes. */
  penetration: number;
  /** Share of melt that gets out of the hole. */
  escape: number;
  /** 1 where all melt leaves below, 0 where all of it leaves above. */
  underShare: number;
  /** Slope of the floor around the jet: d depth / dx and d depth / dy. */
  floorSlopeX: number;
  floorSlopeY: number;
}

/** Scratch memory of the jet, allocated once. One entry per ray of the footprint. */
export interface Jet {
  outcome: JetOutcome;
  capacity: number;
  rayBase: Int32Array;
  rayLayer: Int16Array;
  rayWeight: Float64Array;
  /** Address offset of each layer along the leaning axis, and its shift in cells. */
  layerOffset: Int32Array;
  layerShiftX: Int32Array;
  layerShiftY: Int32Array;
  /** Offset of each metal layer's heat layer. */
  heatPlane: Int32Array;
  jetRadiusMm: number;
}

const RING_X = [1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5, 0, 0.5, 0.866025403784];
const RING_Y = [0, 0.5, 0.866025403784, 1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5];
/** Ring of the surroundings, in radii of the jet at the nozzle. */
const RING_RADII = 1.15;
/** Steepest lean that the axis may take: 75 deg. */
export const STEEPEST_LEAN_TAN = 3.7320508075688767;

export function createJet(metal: MetalField, heat: HeatField, jetRadiusMm: number): Jet {
  const deepest = metal.layers * metal.layerMm;
  const radius = jetRadiusMm + MODEL.jetSpread * 4 * (40 + deepest);
  const across = (2 * radius) / metal.cellMm + 4;
  const capacity = ((across * across * 4) | 0) + 16;
  const heatPlane = new Int32Array(metal.layers);
  for (let k = 0; k < metal.layers; k++) heatPlane[k] = ((k / MODEL.layersPerHeatLayer) | 0) * heat.nx * heat.ny;
  return {
    outcome: {
      deliveredJ: 0,
      throughJ: 0,
      conductedJ: 0,
      removedJ: 0,
      underMm3: 0,
      topMm3: 0,
      metShare: 0,
      meanDepthMm: 0,
      penetration: 0,
      escape: 1,
      underShare: 0,
      floorSlopeX: 0,
      floorSlopeY: 0,
    },
    capacity,
    rayBase: new Int32Array(capacity),
    rayLayer: new Int16Array(capacity),
    rayWeight: new Float64Array(capacity),
    layerOffset: new Int32Array(metal.layers),
    layerShiftX: new Int32Array(metal.layers),
    layerShiftY: new Int32Array(metal.layers),
    heatPlane,
    jetRadiusMm,
  };
}

/** Clears what adds up over the parts of a tick. */
export function clearOutcome(outcome: JetOutcome): void {
  outcome.deliveredJ = 0;
  outcome.throughJ = 0;
  outcome.conductedJ = 0;
  outcome.removedJ = 0;
  outcome.underMm3 = 0;
  outcome.topMm3 = 0;
}

/**
 * Parts into which a tick is cut, so that the middle of the jet eats at most so much depth in one: thin plates and metals that
 * melt easily would otherwise be pierced in steps as long as a cell.
 */
export function jetParts(currentA: number, jetRadiusMm: number, thicknessMm: number, thrownJPerMm3: number, tickS: number): number {
  const powerW = MODEL.arcEfficiency * MODEL.voltageBaseV * currentA;
  const depthMm = (1.5 * powerW * tickS) / (3.141592653589793 * jetRadiusMm * jetRadiusMm * thrownJPerMm3);
  const wanted = thicknessMm / 6 < MODEL.longestBiteMm ? thicknessMm / 6 : MODEL.longestBiteMm;
  let parts = 1;
  while (depthMm / parts > wanted) parts++;
  return parts;
}

/** Slides every layer so that a column of equal index lies along the axis: rays become columns, whatever the lean. */
function alignLayers(jet: Jet, metal: MetalField, pose: JetPose): void {
  const { nx, layers, layerMm, cellMm } = metal;
  for (let k = 0; k < layers; k++) {
    const depth = (k + 0.5) * layerMm;
    const shiftX = nearest((-pose.leanTanX * depth) / cellMm);
    const shiftY = nearest((-pose.leanTanY * depth) / cellMm);
    jet.layerShiftX[k] = shiftX;
    jet.layerShiftY[k] = shiftY;
    jet.layerOffset[k] = (shiftY * nx + shiftX) * layers + k;
  }
}

function nearest(x: number): number {
  return x < 0 ? -((0.5 - x) | 0) : (x + 0.5) | 0;
}

/** First layer with metal along the ray that enters at cell (ix, iy); `layers` where the ray passes. Off the grid there is no metal. */
export function firstMetal(jet: Jet, metal: MetalField, ix: number, iy: number, anyFallen: boolean): number {
  const { nx, ny, layers, gone, pieceOf } = metal;
  for (let k = 0; k < layers; k++) {
    const cx = ix + jet.layerShiftX[k]!;
    const cy = iy + jet.layerShiftY[k]!;
    if (cx < 0 || cx >= nx || cy < 0 || cy >= ny) continue;
    if (gone[(cy * nx + cx) * layers + k]! < 1 && !(anyFallen && pieceOf[cy * nx + cx]! > 0)) return k;
  }
  return layers;
}

/**
 * One tick of the jet on the metal. Power `powerW` arrives for `stepS`, spread over a disc that widens along the axis,
 * with the profile 1 - (r/R)^4: flat in the middle, with an edge. Each ray runs along the axis, passes open cells, and meets
 * the first metal; conduction into the heat field is paid first, what is left melts, and what can escape is removed.
 * `openShare` is the share of the jet that passed through a tick ago. The weights are normalised over the footprint, so that what is delivered is exactly powerW * stepS.
 */
export function applyJet(
  jet: Jet,
  metal: MetalField,
  heat: HeatField,
  table: EnthalpyTable,
  pose: JetPose,
  powerW: number,
  stepS: number,
  anyFallen: boolean,
  openShare: number,
): void {
  const { nx, ny, layers, layerMm, cellMm, gone, pieceOf } = metal;
  const { rayBase, rayLayer, rayWeight, layerOffset, layerShiftX, layerShiftY, heatPlane, outcome } = jet;
  alignLayers(jet, metal, pose);
  const tanX = pose.leanTanX;
  const tanY = pose.leanTanY;
  const lengthening = Math.sqrt(1 + tanX * tanX + tanY * tanY);
  const cosine = 1 / lengthening;
  const footX = pose.xMm - tanX * pose.heightMm - metal.x0Mm;
  const footY = pose.yMm - tanY * pose.heightMm - metal.y0Mm;
  const path0 = pose.heightMm * lengthening;
  const spread = MODEL.jetSpread;
  const shape = MODEL.jetShape;
  // A jet that finds its way open spreads to the walls: the kerf of a slow hand is wide.
  const nozzleRadius = jet.jetRadiusMm * (1 + MODEL.jetFlare * openShare);
  const radiusTop = nozzleRadius + spread * path0;
  const pathPerLayer = layerMm * lengthening;
  // Widest the footprint can be: the radius at the underside, plus the growth across a leaning footprint.
  const radiusBottom = nozzleRadius + spread * (path0 + layers * pathPerLayer);
  const reach = (radiusBottom * lengthening) / (1 - spread * (lengthening - cosine)) + cellMm;
  const ixFrom = ((footX - reach) / cellMm) | 0;
  const ixTo = ((footX + reach) / cellMm + 1) | 0;
  const iyFrom = ((footY - reach) / cellMm) | 0;
  const iyTo = ((footY + reach) / cellMm + 1) | 0;
  const lastShiftX = layerShiftX[layers - 1]!;
  const lastShiftY = layerShiftY[layers - 1]!;
  const safeX0 = lastShiftX < 0 ? -lastShiftX : 0;
  const safeX1 = lastShiftX > 0 ? nx - lastShiftX : nx;
  const safeY0 = lastShiftY < 0 ? -lastShiftY : 0;
  const safeY1 = lastShiftY > 0 ? ny - lastShiftY : ny;

  let rays = 0;
  let sum = 0;
  let metSum = 0;
  let depthSum = 0;
  let deepest = 0;
  for (let iy = iyFrom; iy < iyTo; iy++) {
    const oy = (iy + 0.5) * cellMm - footY;
    const rowSafe = iy >= safeY0 && iy < safeY1;
    for (let ix = ixFrom; ix < ixTo; ix++) {
      const ox = (ix + 0.5) * cellMm - footX;
      // Along the jet (downward), the ray's foot lies this much further than the axis's.
      const along = -(ox * tanX + oy * tanY) * cosine;
      const r2 = ox * ox + oy * oy - along * along;
      const near = radiusBottom + spread * along;
      if (r2 >= near * near) continue;
      let k: number;
      let depth: number;
      if (rowSafe && ix >= safeX0 && ix < safeX1) {
        const base = (iy * nx + ix) * layers;
        k = 0;
        if (anyFallen) {
          while (k < layers && (gone[base + layerOffset[k]!]! >= 1 || pieceOf[((base + layerOffset[k]!) / layers) | 0]! > 0)) k++;
        } else {
          while (k < layers && gone[base + layerOffset[k]!]! >= 1) k++;
        }
        depth = k < layers ? k + gone[base + layerOffset[k]!]! : layers;
        rayBase[rays] = base;
      } else {
        k = firstMetal(jet, metal, ix, iy, anyFallen);
        depth = k < layers ? k + gone[(iy * nx + ix) * layers + layerOffset[k]!]! : layers;
        rayBase[rays] = (iy * nx + ix) * layers;
      }
      const radius = radiusTop + spread * (along + depth * pathPerLayer);
      const radius2 = radius * radius;
      if (r2 >= radius2) continue;
      const ratio = r2 / radius2;
      const weight = ((1 - ratio) * (1 + shape * ratio)) / radius2;
      rayLayer[rays] = k;
      rayWeight[rays] = weight;
      rays++;
      sum += weight;
      if (k < layers) {
        metSum += weight;
        depthSum += weight * depth;
      }
      if (depth > deepest) deepest = depth;
    }
  }

  // The surroundings: how deep the ground lies on a ring just outside the jet, and where it is open.
  let ringDeepest = 0;
  let ringOpen = 0;
  let slopeX = 0;
  let slopeY = 0;
  const ringMm = radiusTop * RING_RADII;
  for (let n = 0; n < 12; n++) {
    const ix = ((footX + RING_X[n]! * ringMm) / cellMm) | 0;
    const iy = ((footY + RING_Y[n]! * ringMm) / cellMm) | 0;
    const k = firstMetal(jet, metal, ix, iy, anyFallen);
    const depth = k < layers ? k + gone[((iy + layerShiftY[k]!) * nx + ix + layerShiftX[k]!) * layers + k]! : layers;
    if (k >= layers) ringOpen++;
    if (depth > ringDeepest) ringDeepest = depth;
    slopeX += depth * RING_X[n]!;
    slopeY += depth * RING_Y[n]!;
  }
  outcome.floorSlopeX = (slopeX * layerMm) / (6 * ringMm);
  outcome.floorSlopeY = (slopeY * layerMm) / (6 * ringMm);

  const throughShare = sum > 0 ? (sum - metSum) / sum : 1;
  const meanDepthMm = metSum > 0 ? (depthSum / metSum) * layerMm : 0;
  const climbMm = meanDepthMm - ringDeepest * layerMm;
  const climb = climbMm > 0 ? climbMm / (MODEL.climbWidths * 2 * radiusTop) : 0;
  const vent = (throughShare + ringOpen / 24) / MODEL.ventShare;
  const underShare = vent < 1 ? vent : 1;
  const escapeUp = 1 / (1 + climb * climb);
  const escaping = underShare + (1 - underShare) * escapeUp;

  const energy = powerW * stepS;
  const perWeight = sum > 0 ? energy / sum : 0;
  const planArea = cellMm * cellMm * cosine;
  const cellVolume = cellMm * cellMm * layerMm;
  const heatVolume = heat.cellMm * heat.cellMm * heat.layerMm;
  const contact = (cellMm * cellMm * stepS) / MODEL.contactDepthMm;
  const { heatJ, metal: metalShare } = heat;
  const heatNx = heat.nx;
  const perJ = table.perJ;
  const temperatures = table.temperatureK;
  const conductivities = table.conductivity;
  const lastEntry = temperatures.length - 2;
  const { meltingK, thrownJPerMm3 } = table;
  const cellsPerHeatShift = 2;

  const wallLossMm = MODEL.wallLossRadii * Math.sqrt(jet.jetRadiusMm);
  const perLength = (lengthening * layerMm) / wallLossMm;
  let wallJ = 0;
  let throughJ = 0;
  let conductedJ = 0;
  let removedJ = 0;
  let removedMm3 = 0;
  for (let ray = 0; ray < rays; ray++) {
    let left = rayWeight[ray]! * perWeight;
    let k = rayLayer[ray]!;
    if (k >= layers) {
      throughJ += left;
      continue;
    }
    const base = rayBase[ray]!;
    // What the walls of the kerf have taken on the way down.
    const down = (k + gone[base + layerOffset[k]!]!) * perLength;
    const arrived = left / (1 + down + 0.5 * down * down);
    wallJ += left - arrived;
    left = arrived;
    const column = (base / layers) | 0;
    const iy = (column / nx) | 0;
    const ix = column - iy * nx;
    let first = true;
    while (left > 0 && k < layers) {
      const cx = ix + layerShiftX[k]!;
      const cy = iy + layerShiftY[k]!;
      const cell = (cy * nx + cx) * layers + k;
      const before = gone[cell]!;
      if (before >= 1 || (anyFallen && pieceOf[cy * nx + cx]! > 0)) {
        k++;
        continue;
      }
      const warm = heatPlane[k]! + (cy >> cellsPerHeatShift) * heatNx + (cx >> cellsPerHeatShift);
      const share = metalShare[warm]!;
      const held = heatJ[warm]!;
      const density = share > 1e-9 ? held / (share * heatVolume) : 0;
      if (first) {
        first = false;
        const place = density * perJ;
        const entry = place < lastEntry ? (place > 0 ? place | 0 : 0) : lastEntry;
        const rise = temperatures[entry]! + (place - entry) * (temperatures[entry + 1]! - temperatures[entry]!);
        if (rise < meltingK) {
          let into = contact * conductivities[entry]! * (meltingK - rise) * share;
          if (into > left) into = left;
          heatJ[warm] = held + into;
          conductedJ += into;
          left -= into;
          if (left <= 0) break;
        }
        const kept = left * (1 - escaping);
        if (kept > 0) {
          heatJ[warm] = heatJ[warm]! + kept;
          conductedJ += kept;
          left -= kept;
        }
      }
      const need = thrownJPerMm3 > density * 1.02 ? thrownJPerMm3 - density : thrownJPerMm3 * 0.02;
      let volume = left / need;
      const there = (1 - before) * cellVolume;
      if (volume >= there) {
        volume = there;
        gone[cell] = 1;
      } else {
        const after = before + volume / cellVolume;
        gone[cell] = after > 0.999999 ? 1 : after;
      }
      const used = volume * need;
      const carried = volume * density;
      left -= used;
      const shareAfter = share - volume / heatVolume;
      metalShare[warm] = shareAfter > 1e-9 ? shareAfter : 0;
      heatJ[warm] = heatJ[warm]! - carried;
      conductedJ -= carried;
      removedJ += used + carried;
      removedMm3 += volume;
      k++;
    }
    throughJ += left;
  }
  const intoWalls = heatWalls(jet, metal, heat, footX, footY, ringMm + heat.cellMm * 0.5, meanDepthMm, wallJ);
  conductedJ += intoWalls;
  throughJ += wallJ - intoWalls;
  outcome.deliveredJ += energy;
  outcome.throughJ += sum > 0 ? throughJ : energy;
  outcome.conductedJ += conductedJ;
  outcome.removedJ += removedJ;
  outcome.underMm3 += removedMm3 * underShare;
  outcome.topMm3 += removedMm3 * (1 - underShare);
  outcome.metShare = 1 - throughShare;
  outcome.meanDepthMm = meanDepthMm;
  outcome.penetration = deepest / layers;
  outcome.escape = escaping;
  outcome.underShare = underShare;
}

/**
 * Spreads what the jet lost on its way down over the metal around it, evenly over the layers above the mean depth; returns
 * what found metal, J.
 */
function heatWalls(
  jet: Jet,
  metal: MetalField,
  heat: HeatField,
  footX: number,
  footY: number,
  ringMm: number,
  depthMm: number,
  wallJ: number,
): number {
  if (wallJ <= 0) return 0;
  const deepest = (depthMm / heat.layerMm) | 0;
  const layers = deepest + 1 < heat.layers ? deepest + 1 : heat.layers;
  const perPlace = wallJ / (layers * 12);
  let spent = 0;
  for (let level = 0; level < layers; level++) {
    const k = level * MODEL.layersPerHeatLayer + 1;
    const alongX = footX + jet.layerShiftX[k]! * metal.cellMm;
    const alongY = footY + jet.layerShiftY[k]! * metal.cellMm;
    let found = 0;
    for (let pass = 0; pass < 2; pass++) {
      for (let n = 0; n < 12; n++) {
        const hx = ((alongX + RING_X[n]! * ringMm) / heat.cellMm) | 0;
        const hy = ((alongY + RING_Y[n]! * ringMm) / heat.cellMm) | 0;
        if (hx < 0 || hy < 0 || hx >= heat.nx || hy >= heat.ny) continue;
        const cell = (level * heat.ny + hy) * heat.nx + hx;
        if (heat.metal[cell]! < 0.25) continue;
        if (pass === 0) found++;
        else {
          heat.heatJ[cell] = heat.heatJ[cell]! + (perPlace * 12) / found;
          spent += (perPlace * 12) / found;
        }
      }
      if (found === 0) break;
    }
  }
  return spent;
}
