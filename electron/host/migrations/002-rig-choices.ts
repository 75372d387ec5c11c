import type { Kysely } from 'kysely';

/** What the trainee chose in the rig check, and what they said was wrong with the rig: JSON text, null where there was no such question. */
export async function rigChoices(db: Kysely<never>): Promise<void> {
  // One column a statement: SQLite takes no more.
  await db.schema.alterTable('runs').addColumn('choices', 'text').execute();
  await db.schema.alterTable('runs').addColumn('diagnosis', 'text').execute();
}
