import {
  type Drill,
  faultHand,
  faultsOf,
  type HandScript,
  type RunFile,
  referenceHand,
  runFileOf,
  runHand,
  windowOfDrill,
} from '../../sim-core/index.ts';
import { nextInteger, nextUnit, type RandomState } from '../../sim-core/math/random.ts';
import { DRILL_FILES, drillText, shippedDrill } from '../scenarios/drill-files.ts';

/** A shipped drill as it is kept. */
export interface ShippedDrill {
  id: string;
  text: string;
  drill: Drill;
}

/** Every drill of scenarios/, by name. */
export function shippedDrills(): ShippedDrill[] {
  return DRILL_FILES.toSorted().map((name) => {
    const id = name.replace(/\.json$/, '');
    return { id, text: drillText(name), drill: shippedDrill(id) };
  });
}

/** Habits of anything between a steady hand and one that shakes, wanders and reacts late. */
function randomHabits(random: RandomState): HandScript['habits'] {
  return {
    tremorMm: nextUnit(random) * 0.5,
    heightTremorMm: nextUnit(random) * 0.6,
    leanTremorDeg: nextUnit(random) * 4,
    wander: { amplitudeMm: nextUnit(random) * 2, wavelengthMm: 10 + nextUnit(random) * 60 },
    reactionS: nextUnit(random) * 0.5,
  };
}

/**
 * A run of a random hand on a drill, as a file: the reference hand or one with a random fault, with random habits and a random
 * seed, every draw from `random`.
 */
export function randomRun({ drill, text }: ShippedDrill, random: RandomState): RunFile {
  const window = windowOfDrill(drill);
  const faults = faultsOf(drill);
  const fault = faults[nextInteger(random) % (faults.length + 1)];
  const { script, ...answers } = fault ? faultHand(fault, drill, window) : { script: referenceHand(drill, window) };
  const habits = randomHabits(random);
  const seed = nextInteger(random);
  return runFileOf(runHand(drill, { ...script, habits }, seed, answers), text, script.name);
}
