import { multiply32 } from '../math/random.ts';

/**
 * Rolling 64-bit digest: two 32-bit lanes of multiply and xor-shift over the bits of numbers. Not a defence against forgers
 * (the run file has a SHA-256 for that): it tells whether two simulations went the same way.
 */
export interface Digest {
  a: number;
  b: number;
}

const bits = new Float64Array(1);
const words = new Uint32Array(bits.buffer);

export function createDigest(): Digest {
  return { a: 0x243f6a88, b: 0x85a308d3 | 0 };
}

export function digestWord(digest: Digest, word: number): void {
  digest.a = multiply32(digest.a ^ word, 0x9e3779b1);
  digest.a ^= digest.a >>> 15;
  digest.b = multiply32((digest.b + word) | 0, 0x85ebca77);
  digest.b ^= (digest.b >>> 13) ^ digest.a;
}

/** Minus zero counts as zero, and every NaN is one NaN: they are the same state. */
export function digestNumber(digest: Digest, value: number): void {
  bits[0] = value === 0 ? 0 : value;
  if (value === value) {
    digestWord(digest, words[0]!);
    digestWord(digest, words[1]!);
  } else digestWord(digest, 0x7ff80000);
}

export function digestHex(digest: Digest): string {
  return (digest.a >>> 0).toString(16).padStart(8, '0') + (digest.b >>> 0).toString(16).padStart(8, '0');
}
