import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto';

/** Cost of one guess. Kept with each hash, so that a later Kerfhand may ask more of new ones. */
export interface ScryptCost {
  /** CPU and memory cost, a power of two. */
  n: number;
  r: number;
  p: number;
}

/** About 0.3 s and 32 MiB a guess: RFC 7914 with the figures that OWASP's Password Storage Cheat Sheet gives for N = 2^15. */
export const SCRYPT_COST: ScryptCost = { n: 2 ** 15, r: 8, p: 3 };
const KEY_BYTES = 32;
const SALT_BYTES = 16;

/** A passphrase as it is kept: never itself, only what scrypt makes of it. Base64 texts. */
export interface PassphraseHash extends ScryptCost {
  salt: string;
  hash: string;
}

export async function hashPassphrase(passphrase: string, cost: ScryptCost = SCRYPT_COST): Promise<PassphraseHash> {
  const salt = randomBytes(SALT_BYTES);
  const hash = await deriveKey(passphrase, salt, cost);
  return { ...cost, salt: salt.toString('base64'), hash: hash.toString('base64') };
}

/** Takes the same time wherever two hashes differ. */
export async function isPassphrase(passphrase: string, kept: PassphraseHash): Promise<boolean> {
  const hash = await deriveKey(passphrase, Buffer.from(kept.salt, 'base64'), kept);
  const expected = Buffer.from(kept.hash, 'base64');
  return hash.length === expected.length && timingSafeEqual(hash, expected);
}

/** 32 bytes from a passphrase. The same letters typed on different systems (composed or not) give the same key. */
function deriveKey(passphrase: string, salt: Uint8Array, { n, r, p }: ScryptCost): Promise<Buffer> {
  const options: ScryptOptions = { N: n, r, p, maxmem: 128 * n * r * 2 };
  return new Promise((resolve, reject) => {
    scrypt(passphrase.normalize('NFKC'), salt, KEY_BYTES, options, (error, key) => (error ? reject(error) : resolve(key)));
  });
}
