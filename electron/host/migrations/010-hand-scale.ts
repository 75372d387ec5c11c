import type { Kysely } from 'kysely';

/** How the hand was measured before a run: JSON text, null where it was not. */
export async function handScale(db: Kysely<never>): Promise<void> {
  await db.schema.alterTable('runs').addColumn('hand_scale', 'text').execute();
}
