import type { Kysely } from 'kysely';

/**
 * People, drill versions, runs with their spool, settings, speed windows.
 * Column types are those of PostgreSQL 15; SQLite takes any name and stores the value as given.
 */
export async function firstRecords(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('people')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('number', 'integer', (c) => c.notNull())
    .addColumn('created_at', 'text', (c) => c.notNull())
    .addUniqueConstraint('people_role_number', ['role', 'number'])
    .execute();

  await db.schema
    .createTable('drill_versions')
    .addColumn('hash', 'text', (c) => c.primaryKey())
    .addColumn('drill_id', 'text', (c) => c.notNull())
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('technique', 'text', (c) => c.notNull())
    .addColumn('material', 'text', (c) => c.notNull())
    .addColumn('thickness_mm', 'double precision', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('added_at', 'text', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('own_drills')
    .addColumn('drill_id', 'text', (c) => c.primaryKey())
    .addColumn('hash', 'text', (c) => c.notNull().references('drill_versions.hash'))
    .execute();

  await db.schema
    .createTable('runs')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('state', 'text', (c) => c.notNull())
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('person_id', 'text', (c) => c.references('people.id'))
    .addColumn('drill_hash', 'text', (c) => c.notNull().references('drill_versions.hash'))
    .addColumn('seed', 'bigint', (c) => c.notNull())
    .addColumn('hand_kind', 'text', (c) => c.notNull())
    .addColumn('hand_name', 'text', (c) => c.notNull())
    .addColumn('core_version', 'text', (c) => c.notNull())
    .addColumn('began_at', 'text', (c) => c.notNull())
    .addColumn('ended_at', 'text')
    .addColumn('tick_count', 'integer', (c) => c.notNull())
    .addColumn('inputs', 'bytea')
    .addColumn('digests', 'text')
    .addColumn('final_digest', 'text')
    .addColumn('score', 'double precision')
    .addColumn('passed', 'integer')
    .addColumn('score_record', 'text')
    .addColumn('trace_hz', 'double precision')
    .addColumn('trace_fields', 'text')
    .addColumn('trace_columns', 'bytea')
    .execute();
  await db.schema.createIndex('runs_by_time').on('runs').columns(['began_at', 'id']).execute();
  await db.schema.createIndex('runs_by_person').on('runs').columns(['person_id', 'began_at']).execute();
  await db.schema.createIndex('runs_by_drill').on('runs').columns(['drill_hash', 'seed']).execute();

  await db.schema
    .createTable('run_spool')
    .addColumn('run_id', 'text', (c) => c.notNull().references('runs.id').onDelete('cascade'))
    .addColumn('sequence', 'integer', (c) => c.notNull())
    .addColumn('first_tick', 'integer', (c) => c.notNull())
    .addColumn('tick_count', 'integer', (c) => c.notNull())
    .addColumn('inputs', 'bytea', (c) => c.notNull())
    .addColumn('stored_at', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('run_spool_key', ['run_id', 'sequence'])
    .execute();

  await db.schema
    .createTable('settings')
    .addColumn('name', 'text', (c) => c.primaryKey())
    .addColumn('value', 'text', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('speed_windows')
    .addColumn('core_version', 'text', (c) => c.notNull())
    .addColumn('material', 'text', (c) => c.notNull())
    .addColumn('thickness_mm', 'double precision', (c) => c.notNull())
    .addColumn('current_a', 'double precision', (c) => c.notNull())
    .addColumn('rig', 'text', (c) => c.notNull())
    .addColumn('speed_window', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('speed_windows_key', ['core_version', 'material', 'thickness_mm', 'current_a', 'rig'])
    .execute();
}
