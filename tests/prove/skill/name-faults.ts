import { type Drill, FAULT_HANDS, faultHand, faultsOf, windowOfDrill } from '../../../sim-core/index.ts';
import { keptScore } from './kept-runs.ts';

const SEED = 21;

export interface NamedFaults {
  injected: number;
  named: number;
  /** Drill, fault, and what was named in its place. */
  missed: string[];
}

/** Every fault that a drill leaves room for, alone in a hand that does all else right: is its measure the first thing to change? */
export function nameFaults(drills: readonly Drill[]): NamedFaults {
  const found: NamedFaults = { injected: 0, named: 0, missed: [] };
  for (const drill of drills) {
    const window = windowOfDrill(drill);
    for (const fault of faultsOf(drill)) {
      const { firstThingToChange } = keptScore({ drill, seed: SEED, persists: false, ...faultHand(fault, drill, window) });
      found.injected += 1;
      if (firstThingToChange?.measureId === FAULT_HANDS[fault]) found.named += 1;
      else found.missed.push(`${drill.id}: ${fault} was named ${firstThingToChange?.key ?? 'nothing'}`);
    }
  }
  return found;
}
