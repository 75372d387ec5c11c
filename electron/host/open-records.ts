import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Kysely, SqliteDialect } from 'kysely';
import { HostError } from './host-error.ts';
import { migrateRecords } from './migrate-records.ts';
import { nodeSqliteDatabase } from './node-sqlite-database.ts';
import { mustBeOwnSchema } from './own-schema.ts';
import { removeLeftOvers } from './passing-files.ts';
import { lockRecords } from './records-lock.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import { damaged, fileErrorName, storageFailure } from './storage-failure.ts';

/** 'KERF' in ASCII, in the header of the file: another program's SQLite file is told apart before anything is done to it. */
const APPLICATION_ID = 0x4b455246;
/** A file up to this size is checked whole at every start (some tens of ms); in a larger one damage shows when it is read. */
const WHOLE_CHECK_LIMIT_BYTES = 32 * 1024 * 1024;
export const RECORDS_FILE = 'records.db';
export const LEDGER_TAIL_FILE = 'records.ledger-tail';

export interface OpenRecords {
  db: RecordsDatabase;
  /** File name for sentences. */
  where: string;
  /** The file beside the records with the last digest of the ledger; null where nothing is kept. */
  ledgerTail: string | null;
  /** Why nothing of this session is kept, as a sentence, or null where everything is. */
  notKept: string | null;
  close(): Promise<void>;
}

export interface OpenRecordsOptions {
  folder: string;
  appVersion: string;
  /** Upper limit of the file in pages of 4 KiB: lets a test fill a disk. */
  maxPages?: number;
}

/**
 * Opens the records of a data folder, making folder and file where there are none, as their only owner.
 * Where the folder cannot be written to, a copy of what is there is opened in a temporary folder instead, so that a person can
 * still practise and look at old runs; `notKept` says so.
 * @throws HostError 'in-use', 'damaged', 'newer-version', 'bad-request' (the folder is a file)
 */
export async function openRecords(options: OpenRecordsOptions): Promise<OpenRecords> {
  const { folder } = options;
  const refusal = whyUnwritable(folder);
  if (refusal) return await openCopy(options, refusal);
  const lock = lockRecords(folder);
  try {
    removeLeftOvers(folder);
    const where = path.join(folder, RECORDS_FILE);
    const db = await openFile(where, options);
    return {
      db,
      where,
      ledgerTail: path.join(folder, LEDGER_TAIL_FILE),
      notKept: null,
      async close() {
        await db.destroy();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw error;
  }
}

/** Makes the folder and writes a small file to its disk; a failure that leaves practice possible is returned, others are thrown. */
function whyUnwritable(folder: string): HostError | null {
  const probe = path.join(folder, `write-probe-${process.pid}`);
  try {
    mkdirSync(folder, { recursive: true });
    const file = openSync(probe, 'w');
    try {
      writeSync(file, Buffer.alloc(4096));
      fsyncSync(file);
    } finally {
      closeSync(file);
      rmSync(probe, { force: true });
    }
    return null;
  } catch (error) {
    const failure = storageFailure(error, folder);
    if (failure?.code === 'read-only' || failure?.code === 'disk-full') return failure;
    const name = fileErrorName(error);
    if (name === 'EEXIST' || name === 'ENOTDIR') {
      throw new HostError(
        'bad-request',
        `${folder} cannot hold records because it, or a part of its path, is a file and not a folder.`,
      );
    }
    throw failure ?? error;
  }
}

async function openCopy(options: OpenRecordsOptions, refusal: HostError): Promise<OpenRecords> {
  const kept = path.join(options.folder, RECORDS_FILE);
  const because =
    refusal.code === 'disk-full'
      ? `The disk that holds ${options.folder} is full`
      : `The folder ${options.folder} cannot be written to`;
  const folder = mkdtempSync(path.join(tmpdir(), 'kerfhand-'));
  const where = path.join(folder, RECORDS_FILE);
  const remove = () => rmSync(folder, { recursive: true, force: true });
  try {
    // The log beside the file holds what was acknowledged last; SQLite replays it into the copy.
    for (const suffix of ['', '-wal']) if (existsSync(kept + suffix)) copyFileSync(kept + suffix, where + suffix);
    const db = await openFile(where, options, kept);
    return {
      db,
      where: kept,
      ledgerTail: null,
      notKept: `${because}, so practice works but nothing of this session is kept; save a run as a file to keep it.`,
      async close() {
        await db.destroy();
        remove();
      },
    };
  } catch (error) {
    remove();
    throw storageFailure(error, folder) ?? error;
  }
}

/** @param shown the name for sentences, where it is not the file itself */
async function openFile(file: string, options: OpenRecordsOptions, shown = file): Promise<RecordsDatabase> {
  let database: DatabaseSync | null = null;
  try {
    database = new DatabaseSync(file, {
      timeout: 2000,
      enableForeignKeyConstraints: true,
      enableDoubleQuotedStringLiterals: false,
    });
    await prepareFile(database, file, shown, options.appVersion);
    if (options.maxPages !== undefined) database.exec(`PRAGMA max_page_count = ${Math.trunc(options.maxPages)}`);
    const db = new Kysely<RecordsTables>({ dialect: new SqliteDialect({ database: nodeSqliteDatabase(database) }) });
    await migrateRecords(db, shown, options.appVersion);
    return db;
  } catch (error) {
    database?.close();
    throw storageFailure(error, shown) ?? error;
  }
}

async function prepareFile(database: DatabaseSync, file: string, shown: string, appVersion: string): Promise<void> {
  distrust(database);
  const isNew = numberOf(database, 'PRAGMA page_count') === 0;
  if (!isNew && numberOf(database, 'PRAGMA application_id') !== APPLICATION_ID) throw damaged(shown);
  // Before anything else: the check below works out what columns and indexes say of themselves.
  if (!isNew) await mustBeOwnSchema(database, shown, appVersion);
  if (!isNew && statSync(file).size <= WHOLE_CHECK_LIMIT_BYTES) {
    const verdict = Object.values(database.prepare('PRAGMA quick_check(1)').get() ?? {})[0];
    if (verdict !== 'ok') throw damaged(shown);
  }
  // FULL: a commit returns when it is on disk, which is what an acknowledgement promises.
  database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL');
  if (isNew) database.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
}

/** A records file may come from anywhere: its own functions, views and triggers get no power here. */
export function distrust(database: DatabaseSync): void {
  database.enableDefensive(true);
  database.exec('PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON');
}

function numberOf(database: DatabaseSync, sql: string): number {
  return Number(Object.values(database.prepare(sql).get() ?? {})[0]);
}
