import { type Kysely, sql } from 'kysely';

/**
 * The ledger: entries that are only ever added, each chained to the one before. The two triggers are SQLite's; on another
 * database the same is done by taking UPDATE and DELETE away from the program's user.
 */
export async function ledger(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('ledger')
    .addColumn('seq', 'integer', (c) => c.primaryKey())
    .addColumn('at', 'text', (c) => c.notNull())
    .addColumn('who', 'text', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('subject', 'text', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .addColumn('previous', 'text', (c) => c.notNull())
    .addColumn('digest', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('ledger_by_subject').on('ledger').columns(['subject', 'seq']).execute();
  await db.schema.createIndex('ledger_by_kind').on('ledger').columns(['kind', 'seq']).execute();
  for (const change of ['update', 'delete']) {
    await sql
      .raw(
        `create trigger ledger_no_${change} before ${change} on ledger begin select raise(abort, 'the ledger is only added to'); end`,
      )
      .execute(db);
  }
}
