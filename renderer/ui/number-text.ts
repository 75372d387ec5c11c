import { type Language, perLanguage, spokenLanguage } from '../text/language.ts';

/** The one place where a number becomes text: decimal point or comma and true minus, as the language has them. */
function writer(format: (digits: number) => Intl.NumberFormatOptions): (value: number, digits: number) => string {
  const formatters = perLanguage(() => new Map<number, Intl.NumberFormat>());
  return (value, digits) => {
    const known = formatters();
    let formatter = known.get(digits);
    if (!formatter) {
      formatter = new Intl.NumberFormat(spokenLanguage(), format(digits));
      known.set(digits, formatter);
    }
    const text = formatter.format(value);
    // A rounded negative zero would print as "-0".
    return /^-[0.,]*$/.test(text) ? text.slice(1) : text.replace('-', '\u2212');
  };
}

/** With so many digits after the decimal sign. */
export const numberText = writer((digits) => ({ minimumFractionDigits: digits, maximumFractionDigits: digits }));

/** With at most so many digits that count. */
export const significantText = writer((digits) => ({ maximumSignificantDigits: digits }));

/** Decimal point or comma, as the language has it. */
export const decimalSign = perLanguage((language) => {
  const parts = new Intl.NumberFormat(language).formatToParts(0.5);
  return parts.find(({ type }) => type === 'decimal')?.value ?? '.';
});

const PERCENT_SIGN: Record<Language, string> = { en: '%', de: '\u00a0%' };

/** A printed number with its sign: "40%", or "40 %" where the language keeps the sign apart. */
export function percentOf(printed: string): string {
  return `${printed}${PERCENT_SIGN[spokenLanguage()]}`;
}

export function percentText(percent: number, digits = 0): string {
  return percentOf(numberText(percent, digits));
}
