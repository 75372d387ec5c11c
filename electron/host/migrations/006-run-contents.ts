import { type Kysely, sql } from 'kysely';

/** What is large of a run moves out of its row, so that lists over thousands of runs read little. */
const MOVED = ['trace_columns', 'inputs', 'digests', 'score_record', 'trace_fields'] as const;

export async function runContents(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('run_contents')
    .addColumn('run_id', 'text', (c) => c.primaryKey().references('runs.id').onDelete('cascade'))
    .addColumn('inputs', 'bytea')
    .addColumn('digests', 'text')
    .addColumn('score_record', 'text')
    .addColumn('trace_fields', 'text')
    .addColumn('trace_columns', 'bytea')
    .execute();
  const columns = sql.join(MOVED.map((column) => sql.ref(column)));
  await sql`insert into run_contents (run_id, ${columns}) select id, ${columns} from runs`.execute(db);
  for (const column of MOVED) await db.schema.alterTable('runs').dropColumn(column).execute();
}
