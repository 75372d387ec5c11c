import { describe, expect, test } from 'vitest';
import { axisScale, band, clock, figure, markText, quantity, scoreText, thickness } from '../../renderer/ui/units.ts';

describe('a quantity as text', () => {
  test.each([
    [1.55, 'mm', 'metric', '1.6\u00a0mm'],
    [160, 'mm', 'metric', '160\u00a0mm'],
    [25.4, 'mm', 'inch', '1.000\u00a0in'],
    [9.04, 'mm/s', 'metric', '9.0\u00a0mm/s'],
    [24.4, 'mm/s', 'metric', '24\u00a0mm/s'],
    [25.4, 'mm/s', 'inch', '60\u00a0in/min'],
    [-0.3, 'deg', 'metric', '0°'],
    [112.4, 'V', 'inch', '112\u00a0V'],
    [0.97, 'share', 'metric', '97%'],
  ] as const)('%f %s in %s units is %s', (value, unit, system, text) => {
    expect(quantity(value, unit, system)).toBe(text);
  });

  test('what is not known is a dash without a unit', () => {
    expect(figure(Number.NaN, 'mm', 'metric')).toEqual({ value: '–', unit: '' });
    expect(quantity(null, 'mm/s', 'inch')).toBe('–');
  });

  test('a band names its unit once, and an open or even band says so', () => {
    expect(band(15, 30, 'deg', 'metric')).toBe('15–30°');
    expect(band(null, 8, 'deg', 'metric')).toBe('≤ 8°');
    expect(band(2, null, 'mm', 'metric')).toBe('≥ 2.0\u00a0mm');
    expect(band(-8, 8, 'deg', 'metric')).toBe('±8°');
  });

  test('a figure below zero has a true minus', () => {
    expect(quantity(-12.2, 'deg', 'metric')).toBe('\u221212°');
  });

  test('no score or mark is rounded up to one that it did not reach', () => {
    expect(scoreText(74.96)).toBe('74');
    expect(markText(94.7, 95)).toBe('94');
    expect(markText(99.7, 95)).toBe('100');
    expect(markText(99.7, null)).toBe('100');
  });

  test('a thickness keeps its trade name', () => {
    expect(thickness(6, 'metric')).toBe('6\u00a0mm');
    expect(thickness(6, 'inch')).toBe('0.236\u00a0in');
  });

  test('axis factors agree with the printed figures', () => {
    const { factor } = axisScale('mm/s', 'inch');
    expect(25.4 * factor).toBeCloseTo(60, 9);
    expect(quantity(10, 'm', 'inch')).toBe(`${Math.round(10 * axisScale('m', 'inch').factor)}\u00a0ft`);
    expect(axisScale('m', 'inch').unit).toBe('ft');
  });

  test('the run clock rounds to tenths and carries into minutes', () => {
    expect(clock(0)).toBe('0:00.0');
    expect(clock(7.26)).toBe('0:07.3');
    expect(clock(59.96)).toBe('1:00.0');
    expect(clock(125.04)).toBe('2:05.0');
  });
});
