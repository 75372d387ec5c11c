import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import { NOZZLES, PART_IDS, type RigFit, type Surface, TORCH_BAR, torchBar } from './rig-fit.ts';
import { TORCH } from './torch-constants.ts';
import { SPENT } from './wear.ts';

/** What a rig as it is fitted out and set can do: fixed for a run. */
export interface TorchFitness {
  /** False where an interlock or the pressure switch lets no pilot start. */
  pilots: boolean;
  /** Radius of the jet over that of a sound torch. */
  softening: number;
  /** Share of the arc's power that the source lets through. */
  powerShare: number;
  /** Double arcs begun per second of arc. */
  doublesPerS: number;
  /** Wandering of the arc, deg rms. */
  wanderDeg: number;
  /** Lean of the arc that a worn bore gives it, as tangents: always to the same side for one seed. */
  boreTan: number;
  /** Share of strikes that fail. */
  strikeFails: number;
  /** Arc voltage per mm over that of a sound torch. */
  gradient: number;
  /** Volts added by the electrode's pit and the return path. */
  addedV: number;
  /** Arc voltage limit beyond the source's, V. */
  headroomV: number;
  /** Times per second that the return path breaks. */
  breaksPerS: number;
  /** False where no current can flow back. */
  returns: boolean;
  /** Longer that the pilot burns before it transfers, s. */
  coatingS: number;
  /** Wear of the electrode, times that of dry gas at the right pressure. */
  wearFactor: number;
  gasLPerS: number;
}

export function torchFitness(fit: RigFit, currentA: number, surface: Surface): TorchFitness {
  const bar = torchBar(fit);
  const missing = bar < TORCH_BAR.low ? 1 - bar / TORCH_BAR.low : 0;
  const excess = bar > TORCH_BAR.high ? bar / TORCH_BAR.high - 1 : 0;
  const nozzle = NOZZLES[fit.nozzle];
  const tooSmall = currentA > nozzle.highA ? currentA / nozzle.highA - 1 : 0;
  const tooLarge = currentA < nozzle.lowA ? nozzle.lowA / currentA - 1 : 0;
  const pit = fit.wear.electrodePitMm / SPENT.electrodePitMm;
  const bore = fit.wear.boreGrowthMm / SPENT.boreGrowthMm;
  const pitShown = pit > TORCH.pitShows ? pit - TORCH.pitShows : 0;
  const load = fit.wear.spatterLoad > fit.wear.shieldDamage ? fit.wear.spatterLoad : fit.wear.shieldDamage;
  const wet = fit.gas === 'wet';
  const oily = fit.gas === 'oily';
  const { clamp } = fit;
  const gougeFlow = fit.mode === 'gouge' && fit.nozzle !== 'gouging' ? TORCH.softGougeFlow : 0;
  const inOrder = fit.stack.length === PART_IDS.length && PART_IDS.every((part, place) => fit.stack[place] === part);
  const fails = TORCH.failPerExcess * excess + (wet ? TORCH.wetFails : 0) + TORCH.pitFails * pitShown;
  return {
    pilots: inOrder && bar >= TORCH.leastBar && pit < TORCH.pitDead,
    softening: 1 + TORCH.softPerMissing * missing + TORCH.softPerLarge * tooLarge + gougeFlow + TORCH.boreSoft * bore,
    powerShare: fit.mode === 'mark' ? TORCH.markPower : 1,
    doublesPerS:
      TORCH.doublePerMissing * missing +
      TORCH.doublePerSmall * tooSmall +
      (oily ? TORCH.oilyDoubles : 0) +
      TORCH.loadDoubles * (load > 0.5 ? load - 0.5 : 0),
    wanderDeg: (wet ? TORCH.wetWanderDeg : 0) + (oily ? TORCH.oilyWanderDeg : 0) + TORCH.pitWanderDeg * pitShown,
    boreTan: tan(TORCH.boreLeanDeg * bore * RAD_PER_DEG),
    strikeFails: fails < 0.95 ? fails : 0.95,
    gradient: 1 + TORCH.gradientPerExcess * excess,
    addedV: TORCH.pitV * fit.wear.electrodePitMm + (clamp ? TORCH.clampOhm[clamp.surface] * currentA : 0),
    headroomV: fit.mode === 'gouge' ? TORCH.gougeHeadroomV : 0,
    breaksPerS: clamp ? TORCH.clampBreaksPerS[clamp.surface] : 0,
    returns: clamp !== null && clamp.surface !== 'paint',
    coatingS: TORCH.coatingS[surface],
    wearFactor: (wet ? TORCH.wetWear : oily ? TORCH.oilyWear : 1) * (1 + 2 * excess),
    gasLPerS: (TORCH.gasLPerS * bar) / 5.3 / (1 - fit.hoseLeakShare < 0.05 ? 0.05 : 1 - fit.hoseLeakShare),
  };
}
