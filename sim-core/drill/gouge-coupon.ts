import type { MaterialId } from '../materials/material-id.ts';
import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import { fitFor, type RigMode } from '../physics/rig-fit.ts';
import { topDepthMm } from '../quality/top-depth.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { createSimulation } from '../run/simulation.ts';
import { ARC_STATES, type HandTick, type RigId, type Simulation, TICK_HZ } from '../run/types.ts';

export interface GougeOptions {
  material: MaterialId;
  thicknessMm: number;
  currentA: number;
  rig: RigId;
  /** Push lean from the plate normal, deg: the handle leans back from the travel, the arc points ahead. */
  pushAngleDeg: number;
  speedMmPerS: number;
  /** Height of the tip, mm. */
  standOffMm: number;
  passes?: number;
  /** 'gouge' unless told otherwise; 'mark' runs a marking line. */
  mode?: Extract<RigMode, 'gouge' | 'mark'>;
  /** Swing of the torch to each side, mm, once every 4 mm of travel; 0 = straight. */
  weaveMm?: number;
}

/** Steady figures of a groove, as the command line prints them. */
export interface GougeResult {
  grooveWidthMm: number;
  grooveDepthMm: number;
  /** 1 - standard deviation / mean of the depth over the middle half. */
  evenness: number;
}

const LENGTH_MM = 120;
const WIDTH_MM = 60;
const FROM_MM = 15;
const TO_MM = 105;
const WEAVE_WAVE_MM = 4;
/** Depth from which on a place counts fully as part of the groove's width, mm. */
const EDGE_DEPTH_MM = 0.3;
const TRANSFERRED = ARC_STATES.indexOf('transferred');

/**
 * Runs a groove along the middle of a plate 120 x 60 mm, from 15 to 105 mm, with the parts and the mode for it. Throws
 * RangeError with one sentence where an option cannot be used.
 */
export function gougeCoupon(options: GougeOptions): GougeResult {
  const { material, thicknessMm, currentA, rig, pushAngleDeg, speedMmPerS, standOffMm } = options;
  const { passes = 1, mode = 'gouge', weaveMm = 0 } = options;
  if (!(speedMmPerS > 0)) throw new RangeError(`${speedMmPerS} mm/s is no speed above 0.`);
  if (!(passes >= 1 && passes <= 20 && passes % 1 === 0))
    throw new RangeError(`${passes} passes are not a whole number from 1 to 20.`);
  const simulation = createSimulation({
    ...{ material, thicknessMm, lengthMm: LENGTH_MM, widthMm: WIDTH_MM },
    ...{ rig, currentA, fit: fitFor(mode, currentA), seed: 0 },
  });
  const besideMm = -tan(pushAngleDeg * RAD_PER_DEG) * standOffMm;
  const pose = { xMm: 0, yMm: WIDTH_MM / 2, heightMm: standOffMm, leanXDeg: -pushAngleDeg, leanYDeg: 0, trigger: true };
  const input: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const stepAt = (alongMm: number): void => {
    const phase = (alongMm / WEAVE_WAVE_MM) % 1;
    pose.xMm = alongMm + besideMm;
    // A triangle is what a wrist does, near enough.
    pose.yMm = WIDTH_MM / 2 + weaveMm * (phase < 0.5 ? 4 * phase - 1 : 3 - 4 * phase);
    simulation.step(quantiseHand(pose, input));
  };
  for (let pass = 0; pass < passes; pass++) {
    pose.trigger = true;
    for (let tick = 0; tick < 4 * TICK_HZ && simulation.sample.arcState !== TRANSFERRED; tick++) stepAt(FROM_MM);
    for (let alongMm = FROM_MM; alongMm < TO_MM; alongMm += speedMmPerS / TICK_HZ) stepAt(alongMm);
    pose.trigger = false;
    for (let tick = 0; tick < 0.2 * TICK_HZ; tick++) stepAt(TO_MM);
  }
  return measureGroove(simulation);
}

function measureGroove(simulation: Simulation): GougeResult {
  const { cellMm } = simulation.grid;
  const depths: number[] = [];
  let widthMm = 0;
  const quarter = (TO_MM - FROM_MM) / 4;
  for (let x = FROM_MM + quarter; x < TO_MM - quarter; x += 2 * cellMm) {
    let deepest = 0;
    for (let y = cellMm / 2; y < WIDTH_MM; y += cellMm) {
      const depth = topDepthMm(simulation, x, y);
      if (depth > deepest) deepest = depth;
      widthMm += depth < EDGE_DEPTH_MM ? (cellMm * depth) / EDGE_DEPTH_MM : cellMm;
    }
    depths.push(deepest);
  }
  const mean = depths.reduce((sum, depth) => sum + depth, 0) / depths.length;
  const variance = depths.reduce((sum, depth) => sum + (depth - mean) * (depth - mean), 0) / depths.length;
  return {
    grooveWidthMm: widthMm / depths.length,
    grooveDepthMm: mean,
    evenness: mean > 0 ? 1 - Math.sqrt(variance) / mean : 0,
  };
}
