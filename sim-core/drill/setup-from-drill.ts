import type { SimulationSetup } from '../run/types.ts';
import type { Drill } from './schema.ts';

/** What the physics needs of a drill. `seed`, 0 to 2^32 - 1, drives the core's own randomness. */
export function setupFromDrill(drill: Drill, seed: number): SimulationSetup {
  const { plate, rig } = drill;
  return {
    material: plate.material,
    thicknessMm: plate.thicknessMm,
    lengthMm: plate.lengthMm,
    widthMm: plate.widthMm,
    cutouts: plate.cutouts,
    supports: plate.supports,
    rig: rig.class,
    currentA: rig.currentA,
    seed,
  };
}
