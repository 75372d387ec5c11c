/** SHA-256 as FIPS 180-4 (Secure Hash Standard, NIST 2015, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3, 6.2) states it. */

// Words are kept as signed ones: engines reckon with those as machine words, with unsigned ones above 2^31 as floating point.
const K = new Int32Array([
  0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5, 0xd807aa98, 0x12835b01,
  0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174, 0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc,
  0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da, 0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147,
  0x06ca6351, 0x14292967, 0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
  0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070, 0x19a4c116, 0x1e376c08,
  0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3, 0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208,
  0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
]);

const BLOCK_BYTES = 64;

/** Digest of the bytes, 64 small hex digits. */
export function sha256Hex(bytes: Uint8Array): string {
  const state = new Int32Array([0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19]);
  const schedule = new Int32Array(64);
  const whole = bytes.length - (bytes.length % BLOCK_BYTES);
  for (let at = 0; at < whole; at += BLOCK_BYTES) takeBlock(state, schedule, bytes, at);
  const tail = paddedTail(bytes, whole);
  for (let at = 0; at < tail.length; at += BLOCK_BYTES) takeBlock(state, schedule, tail, at);
  let hex = '';
  for (const word of state) hex += (word >>> 0).toString(16).padStart(8, '0');
  return hex;
}

/** The last, incomplete block with the 1 bit, the zeros and the length in bits behind it: one block or two. */
function paddedTail(bytes: Uint8Array, whole: number): Uint8Array {
  const rest = bytes.length - whole;
  const tail = new Uint8Array(rest < BLOCK_BYTES - 8 ? BLOCK_BYTES : 2 * BLOCK_BYTES);
  tail.set(bytes.subarray(whole));
  tail[rest] = 0x80;
  let bits = bytes.length * 8;
  for (let at = tail.length - 1; bits > 0; at--) {
    tail[at] = bits % 256;
    bits = (bits - (bits % 256)) / 256;
  }
  return tail;
}

function takeBlock(state: Int32Array, w: Int32Array, bytes: Uint8Array, at: number): void {
  for (let t = 0; t < 16; t++) {
    const i = at + 4 * t;
    w[t] = (bytes[i]! << 24) | (bytes[i + 1]! << 16) | (bytes[i + 2]! << 8) | bytes[i + 3]!;
  }
  for (let t = 16; t < 64; t++) {
    const x = w[t - 15]!;
    const y = w[t - 2]!;
    const s0 = turn(x, 7) ^ turn(x, 18) ^ (x >>> 3);
    const s1 = turn(y, 17) ^ turn(y, 19) ^ (y >>> 10);
    w[t] = (w[t - 16]! + s0 + w[t - 7]! + s1) | 0;
  }
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  let e = state[4]!;
  let f = state[5]!;
  let g = state[6]!;
  let h = state[7]!;
  for (let t = 0; t < 64; t++) {
    const sum1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const choice = (e & f) ^ (~e & g);
    const t1 = (h + sum1 + choice + K[t]! + w[t]!) | 0;
    const sum0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    h = g;
    g = f;
    f = e;
    e = (d + t1) | 0;
    d = c;
    c = b;
    b = a;
    a = (t1 + sum0 + majority) | 0;
  }
  state[0]! += a;
  state[1]! += b;
  state[2]! += c;
  state[3]! += d;
  state[4]! += e;
  state[5]! += f;
  state[6]! += g;
  state[7]! += h;
}

function turn(x: number, by: number): number {
  return (x >>> by) | (x << (32 - by));
}
