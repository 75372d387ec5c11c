import { type Kysely, sql } from 'kysely';

/** Signed verdicts, notes pinned to a moment, and sets that two assessors judge blind. None of them is ever changed or taken out. */
export async function verdicts(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('verdicts')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id'))
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('document', 'text', (c) => c.notNull())
    .addColumn('trust', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('verdicts_by_run').on('verdicts').columns(['run_id', 'at']).execute();
  await db.schema
    .createTable('notes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id'))
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('tick', 'integer', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('notes_by_run').on('notes').columns(['run_id', 'tick']).execute();
  await db.schema
    .createTable('moderation_sets')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('created_by', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('created_at', 'text', (c) => c.notNull())
    .addColumn('first_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('second_id', 'text', (c) => c.notNull().references('people.id'))
    .execute();
  await db.schema
    .createTable('moderation_runs')
    .addColumn('set_id', 'text', (c) => c.notNull().references('moderation_sets.id'))
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id'))
    .addPrimaryKeyConstraint('moderation_runs_key', ['set_id', 'run_id'])
    .execute();
  await db.schema
    .createTable('moderation_judgements')
    .addColumn('set_id', 'text', (c) => c.notNull().references('moderation_sets.id'))
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id'))
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('judgement', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('moderation_judgements_key', ['set_id', 'run_id', 'person_id'])
    .execute();
  for (const table of ['verdicts', 'notes', 'moderation_judgements']) {
    for (const change of ['update', 'delete']) {
      const trigger = `create trigger ${table}_no_${change} before ${change} on ${table}`;
      await sql.raw(`${trigger} begin select raise(abort, '${table} are only added to'); end`).execute(db);
    }
  }
}
