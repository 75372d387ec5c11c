import type { Kysely } from 'kysely';

/** Passphrases of instructors and assessors, with the cost they were made at and the wrong guesses so far; their signing keys. */
export async function passphrases(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('passphrases')
    .addColumn('person_id', 'text', (c) => c.primaryKey().references('people.id'))
    .addColumn('scrypt_n', 'integer', (c) => c.notNull())
    .addColumn('scrypt_r', 'integer', (c) => c.notNull())
    .addColumn('scrypt_p', 'integer', (c) => c.notNull())
    .addColumn('salt', 'text', (c) => c.notNull())
    .addColumn('hash', 'text', (c) => c.notNull())
    .addColumn('wrong_tries', 'integer', (c) => c.notNull())
    .addColumn('next_try_ms', 'bigint', (c) => c.notNull())
    .execute();

  // A key that was replaced stays: what it signed is checked with its public half for ever.
  await db.schema
    .createTable('signing_keys')
    .addColumn('fingerprint', 'text', (c) => c.primaryKey())
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('public_pem', 'text', (c) => c.notNull())
    .addColumn('wrapped', 'text')
    .addColumn('created_at', 'text', (c) => c.notNull())
    .addColumn('retired_at', 'text')
    .execute();
  await db.schema.createIndex('signing_keys_by_person').on('signing_keys').columns(['person_id', 'retired_at']).execute();
}
