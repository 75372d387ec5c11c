/** A share in per cent: tenths below ten, whole above. */
export function percent(share: number): string {
  const value = share * 100;
  return `${value < 9.95 ? value.toFixed(1) : value.toFixed(0)}%`;
}
