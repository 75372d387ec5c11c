import type { CutCondition } from './cut-condition.ts';
import { figureShown as shown } from './figure-shown.ts';
import { metalThicknessMm } from './metal-thickness.ts';
import type { ParseProblem } from './parse-problem.ts';
import { pierceCoupon } from './pierce-coupon.ts';
import { LONGEST_PIERCE_S, piercingThicknessMm } from './piercing.ts';
import type { Drill } from './schema.ts';

const known = new Map<string, boolean>();

/** Why a drill that starts with a pierce cannot: the core's own limit for the rolling method, which reaches deepest. */
export function pierceProblems(drill: Drill): ParseProblem[] {
  const { plate, rig } = drill;
  if (drill.start === 'edge' || rig.mode === 'gouge' || rig.mode === 'mark') return [];
  const { material } = plate;
  const thicknessMm = metalThicknessMm(plate);
  if (canBePierced({ material, thicknessMm, currentA: rig.currentA, rig: rig.class })) return [];
  const limitMm = piercingThicknessMm(material, rig.currentA, rig.class);
  const metal = `${shown(thicknessMm)} mm ${material.replace('-', ' ')}`;
  const sentence = `Rig ${rig.class} at ${shown(rig.currentA)} A cannot pierce ${metal}: its limit is ${shown(limitMm)} mm. Start at an edge, or take more current.`;
  return [{ path: '$.start', sentence }];
}

/** One pierce of the thickness in question answers what the search for the limit would, in a tenth of the time. */
function canBePierced(condition: CutCondition): boolean {
  const key = `${condition.material}/${condition.thicknessMm}/${condition.currentA}/${condition.rig}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  const through = pierceCoupon(condition, 'rolling', LONGEST_PIERCE_S).brokeThrough;
  known.set(key, through);
  return through;
}
