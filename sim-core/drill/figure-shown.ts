import { abs } from '../math/elementary.ts';

/** A figure for a sentence: at most two places, no trailing zeros. */
export function figureShown(value: number): string {
  const text = value.toFixed(2).replace(/\.?0+$/, '');
  return abs(value) < 0.005 ? '0' : text;
}
