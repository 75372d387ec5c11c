import { metalThicknessMm } from './metal-thickness.ts';
import { pierceCoupon } from './pierce-coupon.ts';
import { PIERCES } from './pierce-motions.ts';
import type { Drill } from './schema.ts';

/** What the core says of a pierce done as it should be. */
export interface PierceAnswer {
  /** Time from the arc on the metal to break-through, s; null where it does not come. */
  throughS: number | null;
  /** Melt heat on the torch's front until then, mJ. */
  blowbackMj: number;
}

const known = new Map<string, PierceAnswer>();

/** The drill's metal pierced with its own rig by the motion the drill asks for; null for a start at the edge. */
export function pierceAnswer(drill: Drill): PierceAnswer | null {
  const { start, plate, rig } = drill;
  if (start === 'edge') return null;
  const thicknessMm = metalThicknessMm(plate);
  const condition = { material: plate.material, thicknessMm, currentA: rig.currentA, rig: rig.class };
  const key = JSON.stringify([start, condition]);
  const before = known.get(key);
  if (before) return before;
  const { brokeThrough, timeS, blowbackDose } = pierceCoupon(condition, PIERCES[start].method);
  const answer = { throughS: brokeThrough ? timeS : null, blowbackMj: blowbackDose };
  known.set(key, answer);
  return answer;
}
