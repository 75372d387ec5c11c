import { describe, expect, test } from 'vitest';
import { LEVEL_COLOURS, LEVEL_INKS, LEVELS, levelSign, UNCUT_MARK } from '../../renderer/scene/level-paint.ts';

type Linear = [number, number, number];

function linear(hex: string): Linear {
  return [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  }) as Linear;
}

/** Relative luminance and contrast ratio: WCAG 2.2, definitions of terms. */
const luminance = ([r, g, b]: Linear): number => 0.2126 * r + 0.7152 * g + 0.0722 * b;
const contrast = (a: number, b: number): number => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);

/**
 * What is left of a colour for someone without one kind of cone. Viénot, Brettel and Mollon, 'Digital video colourmaps for checking
 * the legibility of displays by dichromats', Color Research and Application 24 (1999) 243 (matrices from memory).
 */
const SIGHTS: [string, (colour: Linear) => Linear][] = [
  ['every cone', (colour) => colour],
  ['no long-wave cones', ([r, g, b]) => [0.11238 * r + 0.88762 * g, 0.11238 * r + 0.88762 * g, 0.00401 * r - 0.00401 * g + b]],
  ['no middle-wave cones', ([r, g, b]) => [0.29275 * r + 0.70725 * g, 0.29275 * r + 0.70725 * g, 0.02234 * (g - r) + b]],
  ['no colour at all', (colour) => [luminance(colour), luminance(colour), luminance(colour)]],
];

describe('the levels of the quality map', () => {
  test.each(SIGHTS)('fall in luminance from step to step, by half at least, for a sight with %s', (_, seen) => {
    const steps = LEVEL_COLOURS.slice(0, LEVELS).map((colour) => luminance(seen(linear(colour))));
    for (let n = 1; n < steps.length; n += 1) {
      expect(steps[n]).toBeLessThan(steps[n - 1] as number);
      expect(contrast(steps[n] as number, steps[n - 1] as number)).toBeGreaterThanOrEqual(1.5);
    }
  });

  test('carry their number in ink that can be read on them', () => {
    for (const [n, colour] of LEVEL_COLOURS.entries()) {
      expect(contrast(luminance(linear(colour)), luminance(linear(LEVEL_INKS[n] as string)))).toBeGreaterThanOrEqual(4.5);
    }
  });

  test('have a sign each, and metal that is not cut through has its own', () => {
    const signs = [1, 2, 3, 4, 5, UNCUT_MARK].map(levelSign);
    expect(new Set(signs).size).toBe(6);
    expect(LEVEL_COLOURS).toHaveLength(UNCUT_MARK);
  });
});
