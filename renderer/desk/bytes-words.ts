import { numberText } from '../ui/number-text.ts';

const UNITS = ['bytes', 'kB', 'MB', 'GB'] as const;

/** Length of a file as people say it: 300 bytes, 4.2 kB, 87 MB. Steps of a thousand. */
export function bytesWords(bytes: number): string {
  let amount = bytes;
  let unit = 0;
  while (amount >= 999.5 && unit < UNITS.length - 1) {
    amount /= 1000;
    unit++;
  }
  const digits = unit === 0 || amount >= 99.5 ? 0 : 1;
  return `${numberText(amount, digits)}\u00a0${UNITS[unit]}`;
}
