import { power } from '../math/elementary.ts';
import type { JetOfNozzle } from './jet.ts';
import { MODEL } from './model-constants.ts';

/** Radius of the jet where it leaves the nozzle, mm, at a current in A. */
export function jetRadiusMm(currentA: number): number {
  return MODEL.jetRadiusAt45AMm * power(currentA / 45, MODEL.jetRadiusPower);
}

/** Greatest distance from the axis at which the jet can still touch metal, mm, so many mm along its axis from the nozzle. */
export function jetReachMm(currentA: number, alongMm: number): number {
  return jetRadiusMm(currentA) * (1 + MODEL.jetFlare) + MODEL.jetSpread * alongMm;
}

/** The jet of a nozzle at a current, A. A wider one is a softer one, which also spreads faster. */
export function jetOfNozzle(currentA: number, widening: number, thrownJPerMm3: number): JetOfNozzle {
  return {
    jetRadiusMm: jetRadiusMm(currentA) * widening,
    openSpread: MODEL.openSpread * widening * widening,
    liftWeight: liftWeight(currentA, thrownJPerMm3),
  };
}

/**
 * How hard melt is to lift out of a blind hole, over that of steel at 45 A: the more of it a joule makes the harder, the
 * faster the gas of a greater current the easier. `thrownJPerMm3` is the heat that throws out a cubic millimetre, J.
 */
function liftWeight(currentA: number, thrownJPerMm3: number): number {
  const melt = MODEL.liftHeatJPerMm3 / thrownJPerMm3;
  return power(melt, MODEL.liftMeltPower) / power(currentA / 45, MODEL.liftCurrentPower);
}
