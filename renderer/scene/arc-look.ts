import { NOZZLES, type RigFit, TORCH_BAR, torchBar } from '../../sim-core/index.ts';

/** Softer than this and it can be told by eye. */
export const SOFT_SHARE = 0.06;

/**
 * How soft and wide the arc is to look at, 0 = as it should be, 1 = a flame: by how much the gas at the torch falls short, and
 * the current falls short of what the nozzle's bore is made for.
 */
export function softShare(fit: RigFit, currentA: number): number {
  const gas = (TORCH_BAR.low - torchBar(fit)) / TORCH_BAR.low;
  const { lowA } = NOZZLES[fit.nozzle];
  const bore = (lowA - currentA) / lowA;
  return Math.min(1, Math.max(0, gas, bore));
}
