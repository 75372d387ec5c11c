import { PI, sin, TAU } from '../math/elementary.ts';
import { nextUnit, type RandomState } from '../math/random.ts';
import { TICK_HZ } from '../run/types.ts';

/**
 * What a resting hand does of itself: slow drift, correction, and the quick tremor of the muscle near 8 Hz, in falling
 * parts. Frequencies in Hz; the squares of the parts add up to 1. Design defaults.
 */
const PARTS = [
  { lowHz: 0.25, highHz: 0.6, part: 0.8 },
  { lowHz: 1.2, highHz: 2.6, part: 0.58 },
  { lowHz: 7, highHz: 9.5, part: 0.15 },
];
const ROOT_TWO = 1.4142135623730951;

/** One smooth, seeded channel of tremor with root mean square 1. */
export interface Tremor {
  at(tick: number): number;
}

export function createTremor(random: RandomState): Tremor {
  const waves = PARTS.map(({ lowHz, highHz, part }) => ({
    radPerTick: (TAU * (lowHz + (highHz - lowHz) * nextUnit(random))) / TICK_HZ,
    phase: TAU * nextUnit(random),
    size: part * ROOT_TWO,
  }));
  return {
    at(tick) {
      let sum = 0;
      for (const wave of waves) {
        const turns = (wave.radPerTick * tick + wave.phase) % TAU;
        sum += wave.size * sin(turns > PI ? turns - TAU : turns);
      }
      return sum;
    },
  };
}
