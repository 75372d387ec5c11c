/**
 * Rolling 64-bit digest: two 32-bit lanes of additions, shifts and rotations. Not a defence against forgers
 * (the run file has a SHA-256 for that): it tells whether two simulations went the same way.
 */
export interface Digest {
  a: number;
  b: number;
}

export function createDigest(): Digest {
  return { a: 0x243f6a88, b: 0x85a308d3 | 0 };
}

export function digestWord(digest: Digest, word: number): void {
  let a = (digest.a + word) | 0;
  a = (a + (a << 10)) | 0;
  a ^= a >>> 6;
  const b = digest.b ^ a;
  digest.a = a;
  digest.b = (((b << 7) | (b >>> 25)) + a) | 0;
}

/** Bytes four at a time, and their number. */
export function digestBytes(digest: Digest, bytes: Uint8Array): void {
  const whole = bytes.length - (bytes.length % 4);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let { a, b } = digest;
  for (let i = 0; i < whole; i += 4) {
    a = (a + view.getInt32(i, true)) | 0;
    a = (a + (a << 10)) | 0;
    a ^= a >>> 6;
    b ^= a;
    b = (((b << 7) | (b >>> 25)) + a) | 0;
  }
  digest.a = a;
  digest.b = b;
  for (let i = whole; i < bytes.length; i++) digestWord(digest, bytes[i]!);
  digestWord(digest, bytes.length);
}

export function digestHex(digest: Digest): string {
  const last = { a: digest.a, b: digest.b };
  for (let n = 0; n < 4; n++) digestWord(last, n);
  return (last.a >>> 0).toString(16).padStart(8, '0') + (last.b >>> 0).toString(16).padStart(8, '0');
}
