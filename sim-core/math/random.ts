/** Seeded random numbers: the 32-bit counter generator 'splitmix' in halves of 16 bits, integer arithmetic only. */

/** Product of two unsigned 32-bit integers modulo 2^32, exact in every engine. */
export function multiply32(a: number, b: number): number {
  const low = (a & 0xffff) * b;
  const high = ((a >>> 16) * (b & 0xffff)) & 0xffff;
  return (((low % 4294967296) + high * 65536) % 4294967296) | 0;
}

export interface RandomState {
  counter: number;
}

/** Next integer, 0 to 2^32 - 1; advances the state. */
export function nextInteger(state: RandomState): number {
  state.counter = (state.counter + 0x9e3779b9) | 0;
  let z = state.counter;
  z = multiply32(z ^ (z >>> 16), 0x21f0aaad);
  z = multiply32(z ^ (z >>> 15), 0x735a2d97);
  return (z ^ (z >>> 15)) >>> 0;
}

/** Next number in [0, 1). */
export function nextUnit(state: RandomState): number {
  return nextInteger(state) / 4294967296;
}

/** Next standard normal number: the sum of twelve uniforms less six, whose tails end at six deviations. */
export function nextNormal(state: RandomState): number {
  let sum = -6;
  for (let i = 0; i < 12; i++) sum += nextUnit(state);
  return sum;
}
