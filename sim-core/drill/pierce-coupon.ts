import { PI } from '../math/elementary.ts';
import { quantiseHand } from '../run/hand-input.ts';
import { createSimulation } from '../run/simulation.ts';
import { ARC_STATES, type HandTick, type Simulation, TICK_HZ } from '../run/types.ts';
import type { CutCondition } from './cut-condition.ts';

export const PIERCE_METHODS = ['contact', 'rolling', 'stand-off'] as const;
export type PierceMethod = (typeof PIERCE_METHODS)[number];

/** Motions of the three methods: height of the tip, mm, lean at the start, deg. The definitions of the command line; common practice, no source. */
export const PIERCE_POSE: Record<PierceMethod, { heightMm: number; leanDeg: number }> = {
  contact: { heightMm: 0, leanDeg: 0 },
  rolling: { heightMm: 3, leanDeg: 45 },
  'stand-off': { heightMm: 12, leanDeg: 0 },
};
/** Time in which a rolling pierce comes upright, s. */
export const ROLL_S = 2;

/** What a pierce came to, as the command line prints it. */
export interface PierceResult {
  brokeThrough: boolean;
  /** Time from the arc's transfer to break-through, or to giving up, s. */
  timeS: number;
  /** Heat of melt that arrived on the torch's front, mJ. */
  blowbackDose: number;
  /** Width of the crater on the top surface, mm. */
  craterTopMm: number;
  /** Greatest spent share of a new part's life. */
  spentLifeFraction: number;
}

const PLATE_MM = 60;
const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** Share of the arc's power below the plate from which on a pierce is through. */
export const THROUGH_SHARE = 0.02;

/**
 * Pierces the middle of a plate 60 x 60 mm by one of the three motions, and gives up after `longestS` of arc. Throws RangeError
 * with one sentence where the condition cannot be set up.
 */
export function pierceCoupon(condition: CutCondition, method: PierceMethod, longestS = 10): PierceResult {
  const { material, thicknessMm, currentA, rig } = condition;
  const simulation = createSimulation({
    ...{ material, thicknessMm, lengthMm: PLATE_MM, widthMm: PLATE_MM },
    ...{ rig, currentA, seed: 0 },
  });
  const { heightMm, leanDeg } = PIERCE_POSE[method];
  const pose = { xMm: PLATE_MM / 2, yMm: PLATE_MM / 2, heightMm, leanXDeg: leanDeg, leanYDeg: 0, trigger: true };
  const input: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  let litTicks = 0;
  let brokeThrough = false;
  // The pilot may burn for three seconds before it gives up.
  for (let tick = 0; tick < (longestS + 4) * TICK_HZ && litTicks < longestS * TICK_HZ && !brokeThrough; tick++) {
    simulation.step(quantiseHand(pose, input));
    const { sample } = simulation;
    if (sample.arcState !== TRANSFERRED) continue;
    litTicks++;
    const left = 1 - litTicks / (ROLL_S * TICK_HZ);
    pose.leanXDeg = left > 0 ? leanDeg * left : 0;
    brokeThrough = sample.throughFraction >= THROUGH_SHARE;
  }
  const { blowbackMj, spentLife } = simulation.sample;
  return {
    brokeThrough,
    timeS: litTicks / TICK_HZ,
    blowbackDose: blowbackMj,
    craterTopMm: craterMm(simulation),
    spentLifeFraction: spentLife,
  };
}

/** Twice the root of the crater's area over pi: the diameter of a round one. */
function craterMm(simulation: Simulation): number {
  const { cellMm, layerMm } = simulation.grid;
  let cells = 0;
  for (let y = cellMm / 2; y < PLATE_MM; y += cellMm) {
    for (let x = cellMm / 2; x < PLATE_MM; x += cellMm) cells += simulation.goneAt(x, y, layerMm / 2);
  }
  return 2 * Math.sqrt((cells * cellMm * cellMm) / PI);
}
