import type { Drill, RigChoices } from '../../sim-core/index.ts';
import type { UnitSystem } from '../ui/units.ts';

/** What every sheet of the rig check works on. */
export interface RigSheetProps {
  drill: Drill;
  choices: RigChoices;
  units: UnitSystem;
  change(part: Partial<RigChoices>): void;
}
