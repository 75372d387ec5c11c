import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  randomBytes,
} from 'node:crypto';
import type { RecordsDatabase } from './records-tables.ts';
import { deriveKey, SCRYPT_COST, type ScryptCost } from './scrypt-passphrase.ts';

/** A private key as it is kept: PKCS #8 under AES-256-GCM, its key from the passphrase by scrypt. Base64 texts. */
interface WrappedKey extends ScryptCost {
  salt: string;
  nonce: string;
  tag: string;
  sealed: string;
}

export interface SigningKey {
  fingerprint: string;
  privateKey: KeyObject;
  publicPem: string;
}

export interface SigningKeys {
  /** The Ed25519 key of a person, made now where there is none. The passphrase must have been checked before. */
  open(personId: string, passphrase: string): Promise<SigningKey>;
  /** The current key under another passphrase; null where there is none. */
  wrapAgain(personId: string, current: string, next: string): Promise<string | null>;
  /** Puts what `wrapAgain` gave in place; null retires the key: nobody can sign with it any more, what it signed stays good. */
  replaceWrap(step: RecordsDatabase, personId: string, wrapped: string | null): Promise<void>;
  /** Public halves, newest first, retired ones too. */
  publicKeys(
    personId: string,
  ): Promise<{ fingerprint: string; publicPem: string; createdAt: string; retiredAt: string | null }[]>;
}

/** SHA-256 of a public key's DER bytes: names the key for ever. */
export function keyFingerprint(publicKey: KeyObject): string {
  return createHash('sha256')
    .update(publicKey.export({ type: 'spki', format: 'der' }))
    .digest('hex');
}

export function createSigningKeys(db: RecordsDatabase, cost: ScryptCost = SCRYPT_COST): SigningKeys {
  const current = (personId: string) =>
    db
      .selectFrom('signing_keys')
      .selectAll()
      .where('person_id', '=', personId)
      .where('retired_at', 'is', null)
      .executeTakeFirst();

  return {
    async open(personId, passphrase) {
      const row = await current(personId);
      if (row?.wrapped) {
        const privateKey = await unwrap(JSON.parse(row.wrapped) as WrappedKey, passphrase);
        return { fingerprint: row.fingerprint, privateKey, publicPem: row.public_pem };
      }
      const { privateKey, publicKey } = generateKeyPairSync('ed25519');
      const fingerprint = keyFingerprint(publicKey);
      const publicPem = publicKey.export({ type: 'spki', format: 'pem' }) as string;
      const wrapped = JSON.stringify(await wrap(privateKey, passphrase, cost));
      const made = { fingerprint, person_id: personId, public_pem: publicPem, wrapped, created_at: new Date().toISOString() };
      await db
        .insertInto('signing_keys')
        .values({ ...made, retired_at: null })
        .execute();
      return { fingerprint, privateKey, publicPem };
    },
    async wrapAgain(personId, passphrase, next) {
      const row = await current(personId);
      if (!row?.wrapped) return null;
      return JSON.stringify(await wrap(await unwrap(JSON.parse(row.wrapped) as WrappedKey, passphrase), next, cost));
    },
    async replaceWrap(step, personId, wrapped) {
      const change = wrapped === null ? { wrapped, retired_at: new Date().toISOString() } : { wrapped };
      await step
        .updateTable('signing_keys')
        .set(change)
        .where('person_id', '=', personId)
        .where('retired_at', 'is', null)
        .execute();
    },
    async publicKeys(personId) {
      const rows = await db
        .selectFrom('signing_keys')
        .select(['fingerprint', 'public_pem', 'created_at', 'retired_at'])
        .where('person_id', '=', personId)
        .orderBy('created_at', 'desc')
        .execute();
      return rows.map((row) => ({
        fingerprint: row.fingerprint,
        publicPem: row.public_pem,
        createdAt: row.created_at,
        retiredAt: row.retired_at,
      }));
    },
  };
}

export function publicKeyOfPem(pem: string): KeyObject {
  return createPublicKey(pem);
}

async function wrap(privateKey: KeyObject, passphrase: string, { n, r, p }: ScryptCost): Promise<WrappedKey> {
  const salt = randomBytes(16);
  const nonce = randomBytes(12);
  const cipher = createCipheriv('aes-256-gcm', await deriveKey(passphrase, salt, { n, r, p }), nonce);
  const der = privateKey.export({ type: 'pkcs8', format: 'der' });
  const sealed = Buffer.concat([cipher.update(der), cipher.final()]);
  const text = (bytes: Buffer) => bytes.toString('base64');
  return { n, r, p, salt: text(salt), nonce: text(nonce), tag: text(cipher.getAuthTag()), sealed: text(sealed) };
}

async function unwrap(kept: WrappedKey, passphrase: string): Promise<KeyObject> {
  const bytes = (text: string) => Buffer.from(text, 'base64');
  const key = await deriveKey(passphrase, bytes(kept.salt), kept);
  const decipher = createDecipheriv('aes-256-gcm', key, bytes(kept.nonce), { authTagLength: 16 });
  decipher.setAuthTag(bytes(kept.tag));
  const der = Buffer.concat([decipher.update(bytes(kept.sealed)), decipher.final()]);
  return createPrivateKey({ key: der, type: 'pkcs8', format: 'der' });
}
