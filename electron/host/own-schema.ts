import { DatabaseSync } from 'node:sqlite';
import { Kysely, SqliteDialect } from 'kysely';
import { foreignText } from './foreign-text.ts';
import { HostError } from './host-error.ts';
import { migrateRecords, mustBeKnown, RECORDS_MIGRATIONS } from './migrate-records.ts';
import { nodeSqliteDatabase } from './node-sqlite-database.ts';
import type { RecordsTables } from './records-tables.ts';

/** A line of sqlite_schema: what a records file consists of besides its rows. */
interface SchemaPart {
  /** 'table', 'index', 'trigger' or 'view'. */
  type: unknown;
  name: unknown;
  tbl_name: unknown;
  /** The statement that made it; null for an index that a key brings with it. */
  sql: unknown;
}

/** Most parts that are named in the sentence. */
const NAMED_PARTS = 2;

/** The refusal of a records file whose tables are not Kerfhand's; `what` is the sentence without its subject. */
export class ForeignSchema extends HostError {
  readonly what: string;
  constructor(shown: string, what: string) {
    super('damaged', `The records file ${shown} ${what}; it was left as it is, so move it away or put a good copy in its place.`);
    this.what = what;
  }
}

/**
 * Holds a records file to what its own migrations make, statement by statement, so that no foreign trigger, view, table, index or
 * changed column is ever run. Only sqlite_schema and, once that is known to be ours, the table of migrations are read.
 * The statements are compared as SQLite keeps them: the old files kept for the tests show whether another SQLite or kysely
 * writes them differently.
 * @param shown name of the file for the sentence
 * @throws ForeignSchema ('damaged') where something is foreign, changed or missing; HostError 'newer-version'
 */
export async function mustBeOwnSchema(database: DatabaseSync, shown: string, appVersion: string): Promise<void> {
  const found = partsOf(database);
  // Nothing was ever made in this file: a power cut between its first page and its first step.
  if (found.length === 0) return;
  const version = versionOf(database, found, await partsOfVersion(0), shown, appVersion);
  const own = await partsOfVersion(version);
  const foreign = found.filter((part) => !own.some((other) => isSame(part, other)));
  if (foreign.length > 0) throw notOurs(shown, 'holds what Kerfhand does not make', foreign);
  const missing = own.filter((part) => !found.some((other) => isSame(part, other)));
  if (missing.length > 0) throw notOurs(shown, 'lacks what Kerfhand makes', missing);
}

function versionOf(
  database: DatabaseSync,
  found: readonly SchemaPart[],
  first: readonly SchemaPart[],
  shown: string,
  appVersion: string,
): number {
  // A view, a computed column or a trigger in this place would be run by the question itself.
  const about = found.filter(({ name, tbl_name }) => isMigrations(name) || isMigrations(tbl_name));
  const foreign = about.filter((part) => !first.some((other) => isSame(part, other)));
  if (foreign.length > 0) throw notOurs(shown, 'holds what Kerfhand does not make', foreign);
  if (about.length < first.length) throw notOurs(shown, 'lacks what Kerfhand makes', first);
  const applied = database.prepare('SELECT version, name, app_version FROM migrations ORDER BY version').all();
  mustBeKnown(applied as unknown as { version: unknown; name: unknown; app_version: unknown }[], shown, appVersion);
  return applied.length;
}

const isMigrations = (name: unknown) => String(name).toLowerCase() === 'migrations';

/** What the first so many migrations make of an empty file. */
async function partsOfVersion(version: number): Promise<SchemaPart[]> {
  const database = new DatabaseSync(':memory:');
  const db = new Kysely<RecordsTables>({ dialect: new SqliteDialect({ database: nodeSqliteDatabase(database) }) });
  try {
    await migrateRecords(db, ':memory:', '', RECORDS_MIGRATIONS.slice(0, version));
    return partsOf(database);
  } finally {
    await db.destroy();
  }
}

function partsOf(database: DatabaseSync): SchemaPart[] {
  return database.prepare('SELECT type, name, tbl_name, sql FROM sqlite_schema').all() as unknown as SchemaPart[];
}

function isSame(one: SchemaPart, other: SchemaPart): boolean {
  return one.type === other.type && one.name === other.name && one.tbl_name === other.tbl_name && one.sql === other.sql;
}

function notOurs(shown: string, what: string, parts: readonly SchemaPart[]): ForeignSchema {
  const named = parts.slice(0, NAMED_PARTS).map(({ type, name }) => `the ${foreignText(type)} "${foreignText(name)}"`);
  const more = parts.length > NAMED_PARTS ? ` and ${parts.length - NAMED_PARTS} more` : '';
  return new ForeignSchema(shown, `${what}: ${named.join(', ')}${more}`);
}
