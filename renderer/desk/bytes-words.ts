import { say } from '../text/say.ts';
import { numberText } from '../ui/number-text.ts';

const UNITS = ['kB', 'MB', 'GB'] as const;

/** Length of a file as people say it: 300 bytes, 4.2 kB, 187 MB. Steps of a thousand. */
export function bytesWords(bytes: number): string {
  if (bytes < 999.5) return say('backup.facts.bytes', { count: numberText(bytes, 0) });
  let amount = bytes / 1000;
  let unit = 0;
  while (amount >= 999.5 && unit < UNITS.length - 1) {
    amount /= 1000;
    unit++;
  }
  return `${numberText(amount, amount >= 99.5 ? 0 : 1)}\u00a0${UNITS[unit]}`;
}
