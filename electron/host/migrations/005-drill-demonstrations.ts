import type { Kysely } from 'kysely';

/** Which run shows how a version of a drill is cut: one a version. */
export async function drillDemonstrations(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('drill_demonstrations')
    .addColumn('drill_hash', 'text', (c) => c.primaryKey().references('drill_versions.hash'))
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id'))
    .addColumn('kept_at', 'text', (c) => c.notNull())
    .execute();
}
