import { power } from '../math/elementary.ts';
import { MODEL } from './model-constants.ts';

/** Radius of the jet where it leaves the nozzle, mm, at a current in A. */
export function jetRadiusMm(currentA: number): number {
  return MODEL.jetRadiusAt45AMm * power(currentA / 45, MODEL.jetRadiusPower);
}

/** Greatest distance from the axis at which the jet can still touch metal, mm, so many mm along its axis from the nozzle. */
export function jetReachMm(currentA: number, alongMm: number): number {
  return jetRadiusMm(currentA) * (1 + MODEL.jetFlare) + MODEL.jetSpread * alongMm;
}
