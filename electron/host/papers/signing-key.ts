import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  randomBytes,
  scrypt,
  sign,
  verify,
} from 'node:crypto';
import { z } from 'zod';
import { HostError } from '../host-error.ts';
import { canonicalJson } from './canonical-json.ts';

/** Cost of a passphrase guess: 128 MiB and some tenths of a second. A stored key carries the figures it was sealed with. */
const SCRYPT = { n: 131_072, r: 8, p: 1 };
const MOST_SCRYPT_BYTES = 512 * 1024 * 1024;
const CIPHER = 'aes-256-gcm';
const FORMAT = 'kerfhand-signing-key';

const bytesOf = (length: number) => z.string().regex(new RegExp(`^[0-9a-f]{${2 * length}}$`));

/** An assessor's private key as it is kept: Ed25519 as PKCS 8, sealed under their passphrase. Safe to store, useless without it. */
export const sealedKeySchema = z.strictObject({
  format: z.literal(FORMAT),
  formatVersion: z.literal(1),
  /** SHA-256 of the public key's DER (SubjectPublicKeyInfo). */
  keyId: bytesOf(32),
  publicKeyPem: z.string().max(500),
  scrypt: z.strictObject({
    n: z.int().min(2).max(1_048_576),
    r: z.int().min(1).max(32),
    p: z.int().min(1).max(16),
    salt: bytesOf(16),
  }),
  iv: bytesOf(12),
  tag: bytesOf(16),
  sealed: z.string().regex(/^([0-9a-f]{2}){16,200}$/),
});
export type SealedKey = z.infer<typeof sealedKeySchema>;

/** A public key that was read, with the name it goes by. */
export interface PublicKey {
  keyId: string;
  key: KeyObject;
}

/** Makes a key pair and seals its private half. `scryptN` lowers the cost for tests only. */
export async function makeSigningKey(passphrase: string, scryptN = SCRYPT.n): Promise<SealedKey> {
  const { privateKey } = generateKeyPairSync('ed25519');
  return await seal(privateKey, passphrase, scryptN);
}

/** The same key under another passphrase. @throws HostError 'forbidden' where the old passphrase does not open it */
export async function resealSigningKey(sealed: SealedKey, passphrase: string, next: string): Promise<SealedKey> {
  return await seal(await openSigningKey(sealed, passphrase), next, sealed.scrypt.n);
}

/** @throws HostError 'forbidden' where the passphrase is wrong or the stored key was changed: the seal cannot tell which */
export async function openSigningKey(sealed: SealedKey, passphrase: string): Promise<KeyObject> {
  const wrong = () => new HostError('forbidden', 'The passphrase does not open this signing key, or the stored key was changed.');
  const { n, r, p, salt } = sealed.scrypt;
  if (128 * n * r > MOST_SCRYPT_BYTES) throw wrong();
  const secret = await deriveKey(passphrase, Buffer.from(salt, 'hex'), n, r, p);
  try {
    const opened = createDecipheriv(CIPHER, secret, Buffer.from(sealed.iv, 'hex'), { authTagLength: 16 });
    opened.setAAD(boundTo(sealed));
    opened.setAuthTag(Buffer.from(sealed.tag, 'hex'));
    const der = Buffer.concat([opened.update(Buffer.from(sealed.sealed, 'hex')), opened.final()]);
    return createPrivateKey({ key: der, format: 'der', type: 'pkcs8' });
  } catch (error) {
    throw Object.assign(wrong(), { cause: error });
  }
}

/** Ed25519 (RFC 8032) over the bytes, as base64. */
export function signBytes(bytes: Uint8Array, privateKey: KeyObject): string {
  return sign(null, bytes, privateKey).toString('base64');
}

export function signatureFits(bytes: Uint8Array, signature: string, publicKey: KeyObject): boolean {
  const given = Buffer.from(signature, 'base64');
  // Node skips what is no base64: written back it must be the same, so that no character of a signature is free.
  return given.length === 64 && given.toString('base64') === signature && verify(null, bytes, publicKey, given);
}

/**
 * Reads a public key in PEM.
 * @throws HostError 'bad-file' where it is no Ed25519 public key; a private key is refused, so that nobody hands theirs about
 */
export function readPublicKey(pem: string): PublicKey {
  const bad = (sentence: string) => new HostError('bad-file', sentence);
  if (pem.includes('PRIVATE KEY'))
    throw bad('This holds a private key; a public key is needed, and a private one belongs to its owner alone.');
  let key: KeyObject;
  try {
    key = createPublicKey({ key: pem, format: 'pem' });
  } catch {
    throw bad('This is not a public key in PEM: it must begin with "-----BEGIN PUBLIC KEY-----".');
  }
  if (key.asymmetricKeyType !== 'ed25519')
    throw bad(`This is a public key of type ${key.asymmetricKeyType}; verdicts are signed with Ed25519.`);
  return { keyId: keyIdOf(key), key };
}

/** `readPublicKey` for a key that lies in the records, where one that was spoilt must not hold up what stands beside it. */
export function publicKeyOrNull(pem: string): PublicKey | null {
  try {
    return readPublicKey(pem);
  } catch (error) {
    if (error instanceof HostError) return null;
    throw error;
  }
}

async function seal(privateKey: KeyObject, passphrase: string, n: number): Promise<SealedKey> {
  const publicKey = createPublicKey(privateKey);
  const { r, p } = SCRYPT;
  const salt = randomBytes(16);
  const iv = randomBytes(12);
  const open = {
    format: FORMAT as typeof FORMAT,
    formatVersion: 1 as const,
    keyId: keyIdOf(publicKey),
    publicKeyPem: publicKey.export({ format: 'pem', type: 'spki' }).toString(),
    scrypt: { n, r, p, salt: salt.toString('hex') },
  };
  const cipher = createCipheriv(CIPHER, await deriveKey(passphrase, salt, n, r, p), iv, { authTagLength: 16 });
  cipher.setAAD(boundTo(open));
  const der = privateKey.export({ format: 'der', type: 'pkcs8' });
  const sealed = Buffer.concat([cipher.update(der), cipher.final()]).toString('hex');
  return { ...open, iv: iv.toString('hex'), tag: cipher.getAuthTag().toString('hex'), sealed };
}

/** What stands beside the sealed bytes in the open is bound to them: a public key cannot be put beside another private one. */
function boundTo({ format, formatVersion, keyId, publicKeyPem, scrypt }: Omit<SealedKey, 'iv' | 'tag' | 'sealed'>): Buffer {
  return Buffer.from(canonicalJson({ format, formatVersion, keyId, publicKeyPem, scrypt }), 'utf8');
}

function keyIdOf(key: KeyObject): string {
  return createHash('sha256')
    .update(key.export({ format: 'der', type: 'spki' }))
    .digest('hex');
}

function deriveKey(passphrase: string, salt: Buffer, n: number, r: number, p: number): Promise<Buffer> {
  // One text typed on two keyboards can be two sequences of characters: both must open the key.
  const normal = passphrase.normalize('NFKC');
  return new Promise((resolve, reject) => {
    scrypt(normal, salt, 32, { N: n, r, p, maxmem: 128 * n * r + 1024 * 1024 }, (error, key) => {
      if (error) reject(error);
      else resolve(key);
    });
  });
}
