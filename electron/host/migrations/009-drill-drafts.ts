import type { Kysely } from 'kysely';

/** Versions of own drills that were saved to be tried, one a drill: staff see them in front of what is on the shelf, others do not. */
export async function drillDrafts(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('drill_drafts')
    .addColumn('drill_id', 'text', (c) => c.primaryKey())
    .addColumn('hash', 'text', (c) => c.notNull().references('drill_versions.hash'))
    .execute();
}
