const formatter = new Intl.NumberFormat('en', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

/** An amount with the sign of its currency, two decimals. */
export function money(amount: number, currency: string): string {
  return `${currency}\u00a0${formatter.format(amount)}`;
}
