import { copyFileSync, existsSync, linkSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { mkdtemp, open, rm } from 'node:fs/promises';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { syncFolder } from '../atomic-write.ts';
import { HostError } from '../host-error.ts';
import { distrust, LEDGER_TAIL_FILE, openRecords, RECORDS_FILE } from '../open-records.ts';
import { ForeignSchema } from '../own-schema.ts';
import { RESTORING, removeLeftOvers } from '../passing-files.ts';
import { lockRecords } from '../records-lock.ts';
import { storageFailure } from '../storage-failure.ts';
import { type BackupHead, readBackup } from './backup-file.ts';
import { type JobWatch, mustGoOn } from './copy-bytes.ts';

/** Files that make up the records of a folder: the database, its log, the ledger's last digest. */
const KEPT_ASIDE = [RECORDS_FILE, `${RECORDS_FILE}-wal`, LEDGER_TAIL_FILE];

/** Reads a backup from end to end and says what is in it; changes nothing. @throws HostError as `readBackup` does */
export async function inspectBackup(file: string, watch: JobWatch = {}): Promise<BackupHead> {
  return await readBackup(file, watch, async () => null);
}

export interface RestoreOptions extends JobWatch {
  /** The backup. */
  file: string;
  /** Data folder whose records are to be replaced; no host may have it open. It is made where there is none. */
  folder: string;
  appVersion: string;
  now: Date;
}

export interface RestoredYard {
  head: BackupHead;
  /** Folder that holds the records that were there before; null where there were none. */
  keptAside: string | null;
}

/**
 * Puts the records of a backup in the place of those that are there, which are kept aside. Until the whole backup has been read,
 * checked, opened and brought to today's version, nothing is touched; then the records are exchanged by a single rename, so that a
 * power cut leaves the old ones or the new ones.
 * @throws HostError 'in-use' while a host has the folder open, 'bad-file', 'damaged', 'newer-version', 'disk-full', 'read-only',
 * 'conflict' (stopped)
 */
export async function restoreYard({ file, folder, appVersion, now, ...watch }: RestoreOptions): Promise<RestoredYard> {
  let fresh: string | null = null;
  let lock: { release(): void } | null = null;
  try {
    mkdirSync(folder, { recursive: true });
    lock = lockRecords(folder);
    removeLeftOvers(folder);
    fresh = await mkdtemp(path.join(folder, RESTORING));
    const into = fresh;
    const head = await readBackup(file, watch, (name) => open(path.join(into, name), 'wx'));
    mustGoOn(watch);
    await proveRecords(into, file, head, appVersion);
    mustGoOn(watch);
    const keptAside = keepAside(folder, now);
    for (const suffix of ['-wal', '-shm']) rmSync(path.join(folder, RECORDS_FILE + suffix), { force: true });
    renameSync(path.join(into, RECORDS_FILE), path.join(folder, RECORDS_FILE));
    const tail = path.join(into, LEDGER_TAIL_FILE);
    if (existsSync(tail)) renameSync(tail, path.join(folder, LEDGER_TAIL_FILE));
    else rmSync(path.join(folder, LEDGER_TAIL_FILE), { force: true });
    syncFolder(folder);
    return { head, keptAside };
  } catch (error) {
    throw storageFailure(error, folder) ?? error;
  } finally {
    if (fresh) await rm(fresh, { recursive: true, force: true });
    lock?.release();
  }
}

/** Opens the records as the app would, which checks them and brings them to today's version. */
async function proveRecords(folder: string, file: string, head: BackupHead, appVersion: string): Promise<void> {
  const records = await openRecords({ folder, appVersion }).catch((error: unknown) => {
    if (!(error instanceof ForeignSchema)) throw error;
    throw new HostError('bad-file', `The backup ${file} ${error.what}. Nothing was changed.`, { cause: error });
  });
  try {
    if (records.notKept) throw new HostError('read-only', records.notKept);
    const { people } = await records.db
      .selectFrom('people')
      .select((row) => row.fn.countAll().as('people'))
      .executeTakeFirstOrThrow();
    const { runs } = await records.db
      .selectFrom('runs')
      .select((row) => row.fn.countAll().as('runs'))
      .executeTakeFirstOrThrow();
    if (Number(people) !== head.people || Number(runs) !== head.runs) {
      throw new HostError(
        'bad-file',
        `The backup ${file} says that it holds ${head.people} people and ${head.runs} runs, and holds ${people} and ${runs}. Nothing was changed.`,
      );
    }
  } finally {
    await records.close();
  }
  const log = path.join(folder, `${RECORDS_FILE}-wal`);
  // The last connection folds its log into the file when it closes; a log left behind would be lost by the rename.
  if (existsSync(log)) throw new HostError('internal', 'The restored records were not closed cleanly; nothing was changed.');
}

/** A second name or a copy for what is there, so that no way leads to losing it. */
function keepAside(folder: string, now: Date): string | null {
  if (!existsSync(path.join(folder, RECORDS_FILE))) return null;
  foldLogIn(path.join(folder, RECORDS_FILE));
  const stamp = now.toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-');
  const aside = freeName(path.join(folder, `before-restore-${stamp}`));
  mkdirSync(aside);
  for (const name of KEPT_ASIDE) {
    const from = path.join(folder, name);
    if (!existsSync(from)) continue;
    try {
      linkSync(from, path.join(aside, name));
    } catch {
      copyFileSync(from, path.join(aside, name));
    }
  }
  syncFolder(aside);
  return aside;
}

/** Where the records that are to be replaced can still be opened, their log goes into the file; damaged ones are kept as they are. */
function foldLogIn(records: string): void {
  let database: DatabaseSync | null = null;
  try {
    database = new DatabaseSync(records, { timeout: 2000 });
    distrust(database);
    database.exec('PRAGMA wal_checkpoint(TRUNCATE)');
  } catch {
    // Damage is a reason to restore, not one to refuse it: file and log go aside together.
  } finally {
    database?.close();
  }
}

function freeName(wanted: string): string {
  for (let number = 1; ; number++) {
    const name = number === 1 ? wanted : `${wanted}-${number}`;
    if (!existsSync(name)) return name;
  }
}
