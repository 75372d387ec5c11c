import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { HostError } from './host-error.ts';
import { sqliteResultCode, storageFailure } from './storage-failure.ts';

const SQLITE_BUSY = 5;

export interface RecordsLock {
  release(): void;
}

/**
 * Makes this process the single owner of the records in `folder`. The lock is an exclusive transaction held open on a
 * database of its own, so the operating system lets go of it when the process ends, however it ends: there is no
 * stale lock to recognise. `owner.json` beside it only serves the sentence; a stale one is never believed.
 * @throws HostError 'in-use' while another process (or another host in this one) owns the folder
 */
export function lockRecords(folder: string, startedAt: Date = new Date()): RecordsLock {
  const ownerFile = path.join(folder, 'owner.json');
  let held: DatabaseSync | null = null;
  try {
    held = new DatabaseSync(path.join(folder, 'lock.db'), { timeout: 0 });
    held.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    held?.close();
    if (sqliteResultCode(error) === SQLITE_BUSY) {
      throw new HostError(
        'in-use',
        `Kerfhand is already open with the records in ${folder}${describeOwner(ownerFile)}; close it first, or set KERFHAND_DATA to another folder.`,
      );
    }
    throw storageFailure(error, folder) ?? error;
  }
  writeOwner(ownerFile, startedAt);
  const database = held;
  return {
    release() {
      rmSync(ownerFile, { force: true });
      database.close();
    },
  };
}

/** The owner file is a courtesy: a full disk must not keep the app from starting. */
function writeOwner(ownerFile: string, startedAt: Date): void {
  try {
    writeFileSync(ownerFile, `${JSON.stringify({ pid: process.pid, startedAt: startedAt.toISOString() })}\n`);
  } catch {
    rmSync(ownerFile, { force: true });
  }
}

function describeOwner(ownerFile: string): string {
  try {
    const owner: unknown = JSON.parse(readFileSync(ownerFile, 'utf8'));
    if (typeof owner === 'object' && owner !== null && 'pid' in owner && Number.isInteger(owner.pid))
      return ` (process ${owner.pid})`;
  } catch {
    // No readable owner file: the sentence stands without a process number.
  }
  return '';
}
