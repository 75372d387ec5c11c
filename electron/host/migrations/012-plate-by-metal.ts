import type { Kysely } from 'kysely';

/** Plate that was used up is added up by its metal: a new version of a drill may be of another one than the runs before it. */
export async function plateByMetal(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('practice_plate')
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('material', 'text', (c) => c.notNull())
    .addColumn('plate_kg', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('practice_plate_key', ['person_id', 'material'])
    .execute();
  await db.schema.alterTable('practice').dropColumn('material').execute();
  await db.schema.alterTable('practice').dropColumn('plate_kg').execute();
}
