import type { Samples } from '../run/types.ts';

/** Distance of the tip at one tick from where it was at another, by index, in the plane of the plate, mm. */
export function tipWayMm({ columns: { xMm, yMm } }: Samples, from: number, to: number): number {
  const dx = xMm[to] - xMm[from];
  const dy = yMm[to] - yMm[from];
  return Math.sqrt(dx * dx + dy * dy);
}
