/** A figure for reading: three significant digits, or whole where it is large. */
export function shown(value: number): string {
  if (Math.abs(value) >= 100) return value.toFixed(0);
  return String(Number(value.toPrecision(3)));
}

/** Two columns, the first as wide as its widest entry. */
export function rows(pairs: readonly (readonly [string, string])[]): string {
  const width = Math.max(0, ...pairs.map(([name]) => name.length));
  return pairs.map(([name, value]) => `${name.padEnd(width)}  ${value}`).join('\n');
}
