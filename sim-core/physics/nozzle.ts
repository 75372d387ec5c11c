import { power } from '../math/elementary.ts';
import { MODEL } from './model-constants.ts';

/** Radius of the jet where it leaves the nozzle, mm, at a current in A. */
export function jetRadiusMm(currentA: number): number {
  return MODEL.jetRadiusAt45AMm * power(currentA / 45, MODEL.jetRadiusPower);
}
