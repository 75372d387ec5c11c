import { describe, expect, test } from 'vitest';
import { dimmedBehind, followLens, type LightLevel } from '../../renderer/scene/light-level.ts';
import { createSteadyGlow } from '../../renderer/scene/steady-glow.ts';

/**
 * General flashes after WCAG 2.2: "a pair of opposing changes in relative luminance of 10 % or more of the maximum relative luminance
 * where the relative luminance of the darker image is below 0.80". Gives the times at which a change of that size had come about.
 */
function swings(luminance: readonly number[], stepS: number): number[] {
  const times: number[] = [];
  // Since the last swing: how low and how high it has been.
  let low = luminance[0] as number;
  let high = low;
  let way = 0;
  luminance.forEach((value, n) => {
    low = Math.min(low, value);
    high = Math.max(high, value);
    const up = value - low >= 0.1 && low < 0.8;
    const down = high - value >= 0.1 && value < 0.8;
    const next = up && way !== 1 ? 1 : down && way !== -1 ? -1 : way;
    if (next === way) {
      // On its way it only raises the height from which it can fall, or the depth from which it can rise.
      if (way === 1) low = value;
      if (way === -1) high = value;
      return;
    }
    way = next;
    low = value;
    high = value;
    times.push(n * stepS);
  });
  return times;
}

/** The most flashes (pairs of opposing changes) in any one second. */
function mostFlashes(luminance: readonly number[], stepS: number): number {
  const times = swings(luminance, stepS);
  return Math.max(0, ...times.map((from) => Math.floor(times.filter((time) => time >= from && time < from + 1).length / 2)));
}

/** What the arc does to the picture, frame by frame: the wide glow, and the yard behind the lens. */
function shown(arc: (timeS: number) => number, frameS: number, seconds: number, calm: boolean, shade = 8) {
  const level: LightLevel = { value: 1, glow: 0, dimmed: dimmedBehind(shade) };
  const glow = createSteadyGlow();
  const [glows, yards, both]: [number[], number[], number[]] = [[], [], []];
  for (let n = 0; n * frameS < seconds; n += 1) {
    level.glow = glow.step(arc(n * frameS), frameS, calm, false);
    followLens(level, frameS, false);
    glows.push(level.glow);
    yards.push(level.value);
    // In the middle of the picture both are seen, one over the other.
    both.push(Math.min(1, 0.5 * level.value + 0.5 * level.glow));
  }
  return { glows, yards, both };
}

/** An arc that is lost and struck again as often as this. */
const stutter = (hz: number) => (timeS: number) => ((timeS * hz) % 1 < 0.5 ? 1 : 0);

describe('the arc never flashes', () => {
  test('the measure itself finds the flashes of a light that is switched on and off', () => {
    const bare = (hz: number) => Array.from({ length: 360 }, (_, n) => stutter(hz)(n / 120));
    expect(mostFlashes(bare(2), 1 / 120)).toBe(2);
    expect(mostFlashes(bare(10), 1 / 120)).toBe(10);
  });

  for (const frameHz of [20, 60, 144]) {
    test(`at ${frameHz} frames a second no stutter of the arc makes more than three flashes in a second`, () => {
      // Behind the darkest filter the yard changes most.
      for (const shade of [8, 14]) {
        for (let hz = 0.5; hz <= 30; hz += 0.25) {
          for (const light of Object.values(shown(stutter(hz), 1 / frameHz, 12, false, shade))) {
            expect(mostFlashes(light, 1 / frameHz)).toBeLessThanOrEqual(3);
          }
        }
      }
    });
  }

  test('where calm is asked for there is at most one in a second', () => {
    for (let hz = 0.5; hz <= 30; hz += 0.25) {
      for (const light of Object.values(shown(stutter(hz), 1 / 60, 12, true))) {
        expect(mostFlashes(light, 1 / 60)).toBeLessThanOrEqual(1);
      }
    }
  });

  test('an arc that comes and goes by chance does no worse', () => {
    let seed = 77;
    const chance = Array.from({ length: 4000 }, () => {
      seed = (seed * 48271) % 2147483647;
      return seed % 3;
    });
    const arc = (timeS: number) => [0, 0.35, 1][chance[Math.floor(timeS * 40)] as number] as number;
    for (const light of Object.values(shown(arc, 1 / 60, 60, false))) expect(mostFlashes(light, 1 / 60)).toBeLessThanOrEqual(3);
  });

  test('a picture that is scrubbed through strikes and losses is held to it too, and settles where it should', () => {
    const glow = createSteadyGlow();
    const seen: number[] = [];
    for (let n = 0; n < 600; n += 1) seen.push(glow.step(n < 500 ? n % 2 : 1, 1 / 60, false, true));
    expect(mostFlashes(seen, 1 / 60)).toBeLessThanOrEqual(3);
    expect(glow.level).toBe(1);
    expect(glow.moving).toBe(false);
  });

  test('the darker the filter, the less of the yard is seen, down to where nothing but the arc can be told', () => {
    const yards = [8, 9, 10, 12, 14].map((shade) => shown(() => 1, 1 / 60, 6, false, shade).yards.at(-1) as number);
    expect(yards).toEqual([...yards].sort((a, b) => b - a));
    expect(yards[0]).toBeGreaterThan(0.5);
    expect(yards.at(-1)).toBeLessThan(0.2);
    expect(dimmedBehind(null)).toBe(dimmedBehind(8));
  });

  test('a steady arc is shown at full strength within a second', () => {
    expect(shown(() => 1, 1 / 60, 1, false).glows.at(-1)).toBeGreaterThan(0.98);
  });
});
