import { type SimulationSetup, torchFitness } from '../../sim-core/index.ts';

/** Wider than this, over the arc of a sound torch, and it can be told by eye. */
export const SOFT_TO_SEE = 1.04;

/** How wide the arc is over that of a sound torch, by the core's own account of the rig: 1 = as it should be. */
export function arcWidening({ fit, currentA, surface = 'bare' }: SimulationSetup): number {
  return fit ? torchFitness(fit, currentA, surface).softening : 1;
}
