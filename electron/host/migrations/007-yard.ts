import type { Kysely } from 'kysely';

/** Groups, assignments, runs handed in, and running totals of practice. */
export async function yard(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('groups')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull().unique())
    .addColumn('created_at', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('group_members')
    .addColumn('group_id', 'text', (c) => c.notNull().references('groups.id').onDelete('cascade'))
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addPrimaryKeyConstraint('group_members_key', ['group_id', 'person_id'])
    .execute();
  await db.schema.createIndex('group_members_by_person').on('group_members').columns(['person_id', 'group_id']).execute();
  await assignments(db);
  await handedInRuns(db);
  await practice(db);
}

async function assignments(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('assignments')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('due_at', 'text')
    .addColumn('attempts', 'integer')
    .addColumn('cue_level', 'text')
    .addColumn('drill_order', 'text', (c) => c.notNull())
    .addColumn('created_by', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('created_at', 'text', (c) => c.notNull())
    .addColumn('withdrawn_at', 'text')
    .execute();
  await db.schema
    .createTable('assignment_drills')
    .addColumn('assignment_id', 'text', (c) => c.notNull().references('assignments.id'))
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('drill_hash', 'text', (c) => c.notNull().references('drill_versions.hash'))
    .addColumn('attempts', 'integer')
    .addColumn('sealed', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('assignment_drills_key', ['assignment_id', 'position'])
    .execute();
  // One of the two is null: a person, or everybody who is in the group at the time of looking.
  await db.schema
    .createTable('assignment_targets')
    .addColumn('assignment_id', 'text', (c) => c.notNull().references('assignments.id'))
    .addColumn('person_id', 'text', (c) => c.references('people.id'))
    .addColumn('group_id', 'text', (c) => c.references('groups.id'))
    .execute();
  await db.schema.createIndex('assignment_targets_by_assignment').on('assignment_targets').column('assignment_id').execute();
}

async function handedInRuns(db: Kysely<never>): Promise<void> {
  // One column a statement: SQLite takes no more.
  const column = (name: string) => db.schema.alterTable('runs').addColumn(name as never, 'text');
  await column('assignment_id').execute();
  await db.schema
    .alterTable('runs')
    .addColumn('sealed', 'integer', (c) => c.notNull().defaultTo(0))
    .execute();
  for (const name of ['submitted_at', 'decision', 'decided_at', 'decided_by', 'weakest_measure', 'used'])
    await column(name).execute();
  await db.schema.createIndex('runs_by_submission').on('runs').columns(['submitted_at', 'decided_at']).execute();
  await db.schema.createIndex('runs_by_assignment').on('runs').columns(['assignment_id', 'person_id', 'drill_hash']).execute();
  await db.schema
    .createTable('run_marks')
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id').onDelete('cascade'))
    .addColumn('measure_id', 'text', (c) => c.notNull())
    .addColumn('mark', 'double precision', (c) => c.notNull())
    .addColumn('weight', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('run_marks_key', ['run_id', 'measure_id'])
    .execute();
}

/** Sums that a list of a whole class would otherwise make out of every run each time; made anew from the runs whenever asked for. */
async function practice(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('practice')
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('drill_id', 'text', (c) => c.notNull())
    .addColumn('material', 'text', (c) => c.notNull())
    .addColumn('finished', 'integer', (c) => c.notNull())
    .addColumn('passes', 'integer', (c) => c.notNull())
    .addColumn('score_sum', 'double precision', (c) => c.notNull())
    .addColumn('best', 'double precision', (c) => c.notNull())
    .addColumn('recent', 'double precision', (c) => c.notNull())
    .addColumn('last_at', 'text', (c) => c.notNull())
    .addColumn('electrode', 'double precision', (c) => c.notNull())
    .addColumn('nozzle', 'double precision', (c) => c.notNull())
    .addColumn('shield', 'double precision', (c) => c.notNull())
    .addColumn('plate_kg', 'double precision', (c) => c.notNull())
    .addColumn('gas_m3', 'double precision', (c) => c.notNull())
    .addColumn('minutes', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('practice_key', ['person_id', 'drill_id'])
    .execute();
  await db.schema
    .createTable('practice_marks')
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('drill_id', 'text', (c) => c.notNull())
    .addColumn('measure_id', 'text', (c) => c.notNull())
    .addColumn('runs', 'integer', (c) => c.notNull())
    .addColumn('recent', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('practice_marks_key', ['person_id', 'drill_id', 'measure_id'])
    .execute();
  // Both hold all that the views over a class read of a mark.
  const marksIndex = (name: string, columns: string[]) =>
    db.schema.createIndex(name).on('practice_marks').columns(columns).execute();
  await marksIndex('practice_marks_by_person', ['person_id', 'drill_id', 'measure_id', 'recent']);
  await marksIndex('practice_marks_by_drill', ['drill_id', 'measure_id', 'person_id', 'recent']);
  await db.schema
    .createTable('practice_weeks')
    .addColumn('person_id', 'text', (c) => c.notNull().references('people.id'))
    .addColumn('technique', 'text', (c) => c.notNull())
    .addColumn('week', 'text', (c) => c.notNull())
    .addColumn('runs', 'integer', (c) => c.notNull())
    .addColumn('passes', 'integer', (c) => c.notNull())
    .addColumn('score_sum', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('practice_weeks_key', ['person_id', 'technique', 'week'])
    .execute();
}
