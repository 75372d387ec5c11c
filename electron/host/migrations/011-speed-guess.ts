import type { Kysely } from 'kysely';

/** What somebody took their own speed to have been, said before any mark; null where nothing was asked or said. */
export async function speedGuess(db: Kysely<never>): Promise<void> {
  await db.schema.alterTable('runs').addColumn('speed_guess', 'text').execute();
}
