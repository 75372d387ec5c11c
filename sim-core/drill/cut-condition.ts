import type { MaterialId } from '../materials/material-id.ts';
import type { RigId } from '../run/types.ts';

/** A metal on a rig at a current. */
export interface CutCondition {
  material: MaterialId;
  thicknessMm: number;
  currentA: number;
  rig: RigId;
}
