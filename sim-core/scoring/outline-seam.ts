import { abs } from '../math/elementary.ts';
import type { Samples } from '../run/types.ts';
import { CORRIDOR_MM } from './phase.ts';

/**
 * Where an outline closes, the place along it goes over from its end to its beginning in one tick, from `index` to the next: that is
 * no way and no speed. A hand that leaps is somewhere else too.
 */
export function goesOverSeam(sMm: Float64Array, { columns: { xMm, yMm } }: Samples, index: number): boolean {
  if (abs(sMm[index + 1] - sMm[index]) <= CORRIDOR_MM) return false;
  const dx = xMm[index + 1] - xMm[index];
  const dy = yMm[index + 1] - yMm[index];
  return Math.sqrt(dx * dx + dy * dy) <= CORRIDOR_MM;
}
