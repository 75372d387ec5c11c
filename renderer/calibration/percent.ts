import { percentText } from '../ui/number-text.ts';

/** A share in per cent: tenths below ten, whole above. */
export function percent(share: number): string {
  const value = share * 100;
  return percentText(value, value < 9.95 ? 1 : 0);
}
