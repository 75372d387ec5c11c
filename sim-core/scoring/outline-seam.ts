import { abs } from '../math/elementary.ts';
import type { Samples } from '../run/types.ts';
import { CORRIDOR_MM } from './phase.ts';
import { tipWayMm } from './tip-way.ts';

/**
 * Where an outline closes, the place along it goes over from its end to its beginning in one tick, from `index` to the next: that is
 * no way and no speed. A hand that leaps is somewhere else too.
 */
export function goesOverSeam(sMm: Float64Array, samples: Samples, index: number): boolean {
  if (abs(sMm[index + 1] - sMm[index]) <= CORRIDOR_MM) return false;
  return tipWayMm(samples, index, index + 1) <= CORRIDOR_MM;
}
