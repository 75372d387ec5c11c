import type { ClampSpot, Drill } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';

/** A clamp spot as the plan shows it: with a letter, by its place and not by the order in which the drill's file has it. */
export interface LetteredSpot extends ClampSpot {
  letter: string;
}

export function letteredSpots(drill: Drill): LetteredSpot[] {
  return drill.rig.clampSpots
    .toSorted((a, b) => a.xMm - b.xMm || a.yMm - b.yMm)
    .map((spot, n) => ({ ...spot, letter: String.fromCharCode(65 + n) }));
}

/** "A: plate, left near corner, rust". */
export function spotWords(drill: Drill, spot: LetteredSpot): string {
  const { lengthMm, widthMm } = drill.plate;
  const inside = spot.xMm > 0 && spot.yMm > 0 && spot.xMm < lengthMm && spot.yMm < widthMm;
  const third = (at: number, whole: number, names: readonly ['left' | 'near', 'middle', 'right' | 'far']) =>
    say(`rig.spot.${names[at < whole / 3 ? 0 : at < (2 * whole) / 3 ? 1 : 2]}`);
  return say('rig.spot', {
    letter: spot.letter,
    on: say(inside ? 'rig.spot.plate' : 'rig.spot.bench'),
    across: third(spot.xMm, lengthMm, ['left', 'middle', 'right']),
    deep: third(spot.yMm, widthMm, ['near', 'middle', 'far']),
    surface: say(`surface.${spot.surface}`),
  });
}
