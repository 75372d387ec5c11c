import { HostError } from './host-error.ts';
import { makeSigningKey, readPublicKey, resealSigningKey, type SealedKey, sealedKeySchema } from './papers/signing-key.ts';
import { keptPassphrase } from './passphrases.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { RunQueue } from './run-queue.ts';
import { isPassphrase } from './scrypt-passphrase.ts';

export interface KeptPublicKey {
  keyId: string;
  publicPem: string;
  createdAt: string;
  /** When another key took its place; what it signed before stays good. */
  retiredAt: string | null;
}

export interface SigningKeys {
  /**
   * The sealed Ed25519 key of a person, made now where there is none. The passphrase must have been checked before.
   * @throws HostError 'wrong-passphrase' where it was changed since: nobody could open a key that is made under it
   */
  sealedKey(personId: string, passphrase: string): Promise<SealedKey>;
  /** Runs a change of passphrase: no key of that person is made meanwhile. */
  inOrder<T>(personId: string, change: () => Promise<T>): Promise<T>;
  /** The current key under another passphrase, to be put in place by `replace`; null where there is none. Both in one `inOrder`. */
  reseal(personId: string, current: string, next: string): Promise<SealedKey | null>;
  /** null retires the key: nobody can sign with it any more. */
  replace(step: RecordsDatabase, personId: string, sealed: SealedKey | null): Promise<void>;
  /** The key that signs; null where there is none. */
  current(personId: string): Promise<Pick<KeptPublicKey, 'keyId' | 'publicPem'> | null>;
  /** Newest first, retired ones too. */
  publicKeys(personId: string): Promise<KeptPublicKey[]>;
  /** @returns null where that person never had a key of that name here */
  publicPemOf(keyId: string, personId: string): Promise<string | null>;
}

/** Signing keys in the records. @param scryptN cost for tests, see `makeSigningKey` */
export function createSigningKeys(db: RecordsDatabase, scryptN?: number): SigningKeys {
  const queue = new RunQueue();

  const mustBe = (fits: boolean) => {
    if (!fits) throw new HostError('wrong-passphrase', 'The passphrase was changed meanwhile.');
  };

  /** The key that signs: of two live ones the first. */
  function live(personId: string) {
    return db
      .selectFrom('signing_keys')
      .select(['fingerprint', 'public_pem', 'wrapped'])
      .where('person_id', '=', personId)
      .where('retired_at', 'is', null)
      .orderBy('created_at')
      .orderBy('fingerprint')
      .executeTakeFirst();
  }

  async function current(personId: string): Promise<SealedKey | null> {
    const row = await live(personId);
    return row?.wrapped ? sealedKeySchema.parse(JSON.parse(row.wrapped)) : null;
  }

  return {
    // Making one takes long: what else comes for that person waits for it and finds it there.
    sealedKey: (personId, passphrase) =>
      queue.inOrder(personId, async () => {
        const known = await current(personId);
        if (known) return known;
        const kept = await keptPassphrase(db, personId);
        mustBe(kept !== null && (await isPassphrase(passphrase, kept)));
        const sealed = await makeSigningKey(passphrase, scryptN);
        await db.transaction().execute(async (step) => {
          mustBe((await keptPassphrase(step, personId))?.hash === kept?.hash);
          await step
            .insertInto('signing_keys')
            .values({
              fingerprint: readPublicKey(sealed.publicKeyPem).keyId,
              person_id: personId,
              public_pem: sealed.publicKeyPem,
              wrapped: JSON.stringify(sealed),
              created_at: new Date().toISOString(),
              retired_at: null,
            })
            .execute();
        });
        return sealed;
      }),
    inOrder: (personId, change) => queue.inOrder(personId, change),
    async reseal(personId, passphrase, next) {
      const sealed = await current(personId);
      return sealed && (await resealSigningKey(sealed, passphrase, next));
    },
    async replace(step, personId, sealed) {
      const keyId = sealed && readPublicKey(sealed.publicKeyPem).keyId;
      const live = step.updateTable('signing_keys').where('person_id', '=', personId).where('retired_at', 'is', null);
      if (keyId !== null)
        await live
          .set({ wrapped: JSON.stringify(sealed) })
          .where('fingerprint', '=', keyId)
          .execute();
      // Records may hold a second live key, from when two first signatures at once made one each.
      const others = keyId === null ? live : live.where('fingerprint', '!=', keyId);
      await others.set({ wrapped: null, retired_at: new Date().toISOString() }).execute();
    },
    async current(personId) {
      const row = await live(personId);
      return row ? { keyId: row.fingerprint, publicPem: row.public_pem } : null;
    },
    async publicKeys(personId) {
      const rows = await db
        .selectFrom('signing_keys')
        .select(['fingerprint', 'public_pem', 'created_at', 'retired_at'])
        .where('person_id', '=', personId)
        .orderBy('created_at', 'desc')
        .execute();
      return rows.map((row) => ({
        keyId: row.fingerprint,
        publicPem: row.public_pem,
        createdAt: row.created_at,
        retiredAt: row.retired_at,
      }));
    },
    async publicPemOf(keyId, personId) {
      const row = await db
        .selectFrom('signing_keys')
        .select('public_pem')
        .where('fingerprint', '=', keyId)
        .where('person_id', '=', personId)
        .executeTakeFirst();
      return row?.public_pem ?? null;
    },
  };
}
