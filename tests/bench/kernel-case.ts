import { enthalpyTable } from '../../sim-core/materials/enthalpy-table.ts';
import { MATERIALS } from '../../sim-core/materials/materials.ts';
import { setHeatStep, stepConduction } from '../../sim-core/physics/heat-field.ts';
import { applyJet, clearOutcome, type JetPose, jetParts } from '../../sim-core/physics/jet.ts';
import { TILE_CELLS } from '../../sim-core/physics/metal-field.ts';
import { MODEL } from '../../sim-core/physics/model-constants.ts';
import { ownSetup } from '../../sim-core/run/own-setup.ts';
import { createSimulationState } from '../../sim-core/run/simulation-state.ts';
import { type SimulationSetup, TICK_HZ } from '../../sim-core/run/types.ts';

const POSE_NUMBERS = 5;
const BOX_NUMBERS = 4;
const LEAST_INTS = 16;
const LEAST_NUMBERS = 24;

/** The hot kernel on a fixed piece of work: bursts of the jet along a line, and the conduction that goes with them. */
export interface KernelCase {
  ticks: number;
  /** Runs the whole work in TypeScript from the same start, and tells its processor time by `clock`, ms. */
  run(clock: () => number): number;
  /** The fields as the last run left them. */
  fields(): Float64Array[];
  /** The case as kernel.c reads it. */
  bytes(repeats: number): Uint8Array;
}

const SETUP: SimulationSetup = {
  ...{ material: 'mild-steel', thicknessMm: 6, lengthMm: 120, widthMm: 60 },
  ...{ rig: '60', currentA: 45, seed: 1 },
};
const SPEED_MM_PER_S = 9;
/** The second half is cut with the torch leaning. */
const LEAN_TAN = 0.12;

/** An edge start in 6 mm mild steel at 45 A and the cut after it, upright and then leaning. */
export function createKernelCase(ticks: number): KernelCase {
  const state = createSimulationState(ownSetup(SETUP));
  const { metal, heat, jet, window } = state;
  const table = enthalpyTable(MATERIALS[SETUP.material]);
  const parts = jetParts(SETUP.currentA, jet.jetRadiusMm, SETUP.thicknessMm, table.thrownJPerMm3, 1 / TICK_HZ);
  const side = window.side;
  const poses = new Float64Array(ticks * parts * POSE_NUMBERS);
  const boxes = new Int32Array(ticks * BOX_NUMBERS);
  const startTicks = TICK_HZ / 2;
  for (let tick = 0; tick < ticks; tick++) {
    for (let part = 0; part < parts; part++) {
      const at = tick + (part + 1) / parts - 1;
      const along = at < startTicks ? 0 : ((at - startTicks) / TICK_HZ) * SPEED_MM_PER_S;
      const lean = tick * 2 < ticks ? 0 : LEAN_TAN;
      poses.set([along, SETUP.widthMm / 2 + along / 60, 1.5, lean, lean / 2], (tick * parts + part) * POSE_NUMBERS);
    }
    const last = ((tick + 1) * parts - 1) * POSE_NUMBERS;
    const tileMm = TILE_CELLS * metal.cellMm;
    const tileX = Math.floor((poses[last]! - metal.x0Mm) / tileMm);
    const tileY = Math.floor((poses[last + 1]! - metal.y0Mm) / tileMm);
    const inX = (tile: number): number => Math.min(Math.max(tile, 1), window.tilesX - 1) * side;
    const inY = (tile: number): number => Math.min(Math.max(tile, 1), window.tilesY - 1) * side;
    boxes.set([inX(tileX - 1), inY(tileY - 1), inX(tileX + 2), inY(tileY + 2)], tick * BOX_NUMBERS);
  }
  const start = [metal.gone.slice(), heat.heatJ.slice(), heat.metal.slice()] as const;
  const pose: JetPose = { xMm: 0, yMm: 0, heightMm: 0, leanTanX: 0, leanTanY: 0, headingX: 1, headingY: 0 };
  const powerW = MODEL.arcEfficiency * (MODEL.voltageBaseV + 20) * SETUP.currentA;
  const stepS = 1 / TICK_HZ / parts;

  function run(clock: () => number): number {
    metal.gone.set(start[0]);
    heat.heatJ.set(start[1]);
    heat.metal.set(start[2]);
    metal.openedTo.fill(0);
    setHeatStep(heat, table, window.strideTicks / TICK_HZ / window.steps);
    jet.burst.powerW = powerW;
    jet.burst.stepS = stepS;
    jet.burst.openShare = 0;
    const began = clock();
    for (let tick = 0; tick < ticks; tick++) {
      clearOutcome(jet.outcome);
      for (let part = 0; part < parts; part++) {
        const at = (tick * parts + part) * POSE_NUMBERS;
        pose.xMm = poses[at]!;
        pose.yMm = poses[at + 1]!;
        pose.heightMm = poses[at + 2]!;
        pose.leanTanX = poses[at + 3]!;
        pose.leanTanY = poses[at + 4]!;
        applyJet(jet, metal, heat, table, pose, false);
        jet.burst.openShare = 1 - jet.outcome.metShare;
      }
      if (tick % window.strideTicks !== 0) continue;
      const at = tick * BOX_NUMBERS;
      for (let n = 0; n < window.steps; n++) {
        stepConduction(heat, table, boxes[at]!, boxes[at + 1]!, boxes[at + 2]!, boxes[at + 3]!);
      }
    }
    return clock() - began;
  }

  function bytes(repeats: number): Uint8Array {
    const ints = new Int32Array(LEAST_INTS);
    ints.set([metal.nx, metal.ny, metal.layers, heat.nx, heat.ny, heat.layers, table.temperatureK.length]);
    ints.set([ticks, parts, window.strideTicks, window.steps, repeats, MODEL.layersPerHeatLayer], 7);
    const numbers = new Float64Array(LEAST_NUMBERS);
    numbers.set([metal.cellMm, metal.layerMm, heat.cellMm, heat.layerMm, jet.jetRadiusMm]);
    numbers.set([MODEL.jetSpread, MODEL.jetShape, MODEL.jetFlare, jet.openSpread], 5);
    numbers.set([MODEL.contactDepthMm, MODEL.wallLossMm, table.perJ, table.meltingK, table.thrownJPerMm3], 9);
    numbers.set([powerW, stepS, heat.step.lateral, heat.step.through, heat.step.perJ, 0, metal.x0Mm, metal.y0Mm], 14);
    const blocks = [ints, numbers, ...start, table.temperatureK, table.conductivity, poses, boxes];
    const all = new Uint8Array(blocks.reduce((sum, block) => sum + block.byteLength, 0));
    let at = 0;
    for (const block of blocks) {
      all.set(new Uint8Array(block.buffer, block.byteOffset, block.byteLength), at);
      at += block.byteLength;
    }
    return all;
  }

  return { ticks, run, bytes, fields: () => [metal.gone, heat.heatJ, heat.metal] };
}
