import { clamp } from '../math/elementary.ts';
import { RIGS } from '../physics/rig.ts';
import { dialOf, type RigFit } from '../physics/rig-fit.ts';
import { freshWear } from '../physics/wear.ts';
import type { SimulationSetup } from '../run/types.ts';
import { applyFaults } from './apply-faults.ts';
import { openingOutlines } from './openings.ts';
import { type RigChoices, rightChoices } from './rig-choices.ts';
import type { Drill } from './schema.ts';

/**
 * What the physics needs of a drill and of what the trainee has chosen; without choices the rig is as the drill wants it.
 * The drill's faults come on top. `seed`, 0 to 2^32 - 1, drives the core's own randomness.
 */
export function setupFromDrill(drill: Drill, seed: number, choices: RigChoices | null = null): SimulationSetup {
  const { plate, rig } = drill;
  const chosen = choices ?? rightChoices(drill);
  const fit = applyFaults(chosenFit(drill, chosen), drill.faults);
  const { lowA, highA } = dialOf(RIGS[rig.class], fit.mode);
  const stripped = chosen.coatingRemoved && (plate.surface === 'paint' || plate.surface === 'zinc');
  return {
    material: plate.material,
    thicknessMm: plate.thicknessMm,
    lengthMm: plate.lengthMm,
    widthMm: plate.widthMm,
    cutouts: [...plate.cutouts, ...openingOutlines(plate)],
    supports: plate.supports,
    surface: stripped ? 'bare' : plate.surface,
    ...(plate.airGap ? { airGap: plate.airGap } : {}),
    rig: rig.class,
    // A mode has its own dial: what was chosen beyond its end stands at its end.
    currentA: clamp(chosen.currentA, lowA, highA),
    fit,
    seed,
  };
}

/** The rig as it was fitted out and set. Gas from a trap that was not drained is wet. */
function chosenFit(drill: Drill, choices: RigChoices): RigFit {
  const spot = drill.rig.clampSpots.find(({ id }) => id === choices.clampSpot);
  return {
    mode: choices.mode,
    nozzle: choices.nozzle,
    shield: choices.shield,
    stack: choices.stack,
    supplyBar: choices.supplyBar,
    hoseM: drill.rig.hoseM,
    hoseLeakShare: 0,
    gas: choices.waterTrapDrained ? 'dry' : 'wet',
    clamp: spot ? { xMm: spot.xMm, yMm: spot.yMm, surface: spot.surface } : null,
    wear: freshWear(),
  };
}
