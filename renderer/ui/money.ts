import { numberText } from './number-text.ts';

/** An amount with the sign of its currency, two decimals. */
export function money(amount: number, currency: string): string {
  return `${currency}\u00a0${numberText(amount, 2)}`;
}
