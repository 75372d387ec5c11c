import { cos, RAD_PER_DEG } from '../math/elementary.ts';
import type { CutCondition } from './cut-condition.ts';
import { metalThicknessMm } from './metal-thickness.ts';
import type { Drill } from './schema.ts';
import { type SpeedWindow, speedWindow } from './speed-window.ts';

/**
 * The coupon whose speed window holds for a drill: its metal on its rig; under a bevel as thick as the way through it, of two
 * plates the metal of both. null where the drill has a speed of its own, as a groove or a mark has.
 */
export function conditionOfDrill(drill: Drill): CutCondition | null {
  const { plate, rig, intended } = drill;
  if (intended.speedMmPerS) return null;
  const metalMm = metalThicknessMm(plate);
  const thicknessMm = intended.bevelDeg === 0 ? metalMm : metalMm / cos(intended.bevelDeg * RAD_PER_DEG);
  return { material: plate.material, thicknessMm, currentA: rig.currentA, rig: rig.class };
}

/** The speed window of a drill: its own, or the core's answer for its metal, which may take some seconds at the first asking. */
export function windowOfDrill(drill: Drill): SpeedWindow {
  const own = drill.intended.speedMmPerS;
  const condition = conditionOfDrill(drill);
  if (condition) return speedWindow(condition);
  return { windowLowMmPerS: own?.low ?? null, windowHighMmPerS: own?.high ?? null, losingSpeedMmPerS: null, edgeDwellS: null };
}
