import { nextInteger, type RandomState } from '../../../sim-core/math/random.ts';

/** A whole number from 0 to below `count`. */
export function below(random: RandomState, count: number): number {
  return nextInteger(random) % count;
}

/** One of them. */
export function pick<T>(random: RandomState, among: readonly T[]): T {
  return among[below(random, among.length)]!;
}
