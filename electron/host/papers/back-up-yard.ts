import { existsSync, readFileSync } from 'node:fs';
import { type FileHandle, mkdtemp, open, rename, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { backup, DatabaseSync } from 'node:sqlite';
import { partBeside, syncFolder } from '../atomic-write.ts';
import { HostError } from '../host-error.ts';
import { distrust, LEDGER_TAIL_FILE, RECORDS_FILE } from '../open-records.ts';
import { damaged, storageFailure } from '../storage-failure.ts';
import { type BackupHead, backupHead, readBackup } from './backup-file.ts';
import { copyBytes, type JobWatch, mustGoOn, writeAll } from './copy-bytes.ts';

/** Pages of 4 KiB copied between two looks at whether to stop. */
const PAGES_AT_ONCE = 2048;

export interface BackUpOptions extends JobWatch {
  /** Data folder; its records may be open and written to meanwhile. */
  folder: string;
  /** File to write. It is written whole or not at all; one that is there is replaced. */
  to: string;
  appVersion: string;
  madeAt: Date;
  /** In place of the system's own, see `syncFolder`. */
  syncBySystem?: ((folder: string) => void) | undefined;
}

/**
 * Writes the whole yard into one file: the records as they stood at one moment, and the last digest of the ledger beside them.
 * Progress counts the bytes of the file; the copy of the records before it goes unreported where it is quick.
 * @throws HostError 'not-found', 'damaged', 'disk-full', 'read-only', 'conflict' (stopped)
 */
export async function backUpYard(options: BackUpOptions): Promise<BackupHead> {
  const { folder, to, appVersion, madeAt } = options;
  const records = path.join(folder, RECORDS_FILE);
  if (!existsSync(records)) throw new HostError('not-found', `There are no records in ${folder}.`);
  // The digest is written after what it tells of: read before the records, it never tells of more than they hold.
  const tailFile = path.join(folder, LEDGER_TAIL_FILE);
  const tail = existsSync(tailFile) ? readFileSync(tailFile) : null;
  const part = partBeside(to);
  let copies: string | null = null;
  try {
    copies = await mkdtemp(path.join(path.dirname(to), '.kerfhand-backup-'));
    const copy = path.join(copies, RECORDS_FILE);
    await copyRecords(records, copy, options);
    const facts = factsOf(copy, records);
    const files = [{ name: RECORDS_FILE, path: copy }];
    if (tail) {
      const tailCopy = path.join(copies, LEDGER_TAIL_FILE);
      await writeFile(tailCopy, tail);
      files.push({ name: LEDGER_TAIL_FILE, path: tailCopy });
    }
    const head = await writeBackup(part, files, { madeAt: madeAt.toISOString(), appVersion, ...facts }, options);
    // What cannot be read again is no backup.
    await readBackup(part, { signal: options.signal }, async () => null);
    await rename(part, to);
    syncFolder(path.dirname(to), options.syncBySystem);
    return head;
  } catch (error) {
    throw storageFailure(error, to) ?? error;
  } finally {
    await rm(part, { force: true });
    if (copies) await rm(copies, { recursive: true, force: true });
  }
}

/** A copy of the records as of now, one plain file, while others go on writing. */
async function copyRecords(records: string, copy: string, watch: JobWatch): Promise<void> {
  const source = new DatabaseSync(records, { readOnly: true, timeout: 5000 });
  try {
    distrust(source);
    // Holding a moment open: without it every commit of another connection would start the copy anew.
    source.exec('BEGIN');
    source.prepare('SELECT count(*) FROM sqlite_schema').get();
    mustGoOn(watch);
    await backup(source, copy, {
      rate: PAGES_AT_ONCE,
      progress: () => mustGoOn(watch),
    });
    mustGoOn(watch);
  } finally {
    source.close();
  }
}

function factsOf(copy: string, records: string): Pick<BackupHead, 'recordsVersion' | 'people' | 'runs'> {
  const database = new DatabaseSync(copy);
  try {
    distrust(database);
    // One plain file: no log beside it that would have to come along.
    database.exec('PRAGMA journal_mode = DELETE');
    const number = (sql: string) => Number(Object.values(database.prepare(sql).get() ?? {})[0]);
    if (Object.values(database.prepare('PRAGMA quick_check(1)').get() ?? {})[0] !== 'ok') throw damaged(records);
    return {
      recordsVersion: number('SELECT coalesce(max(version), 0) FROM migrations'),
      people: number('SELECT count(*) FROM people'),
      runs: number('SELECT count(*) FROM runs'),
    };
  } catch (error) {
    throw storageFailure(error, records) ?? error;
  } finally {
    database.close();
  }
}

async function writeBackup(
  part: string,
  files: readonly { name: string; path: string }[],
  facts: Pick<BackupHead, 'madeAt' | 'appVersion' | 'recordsVersion' | 'people' | 'runs'>,
  watch: JobWatch,
): Promise<BackupHead> {
  const digested: BackupHead['files'] = [];
  for (const file of files) {
    const { size } = await stat(file.path);
    const { sha256 } = await withFile(file.path, 'r', (source) => copyBytes(source, null, size, watch, () => undefined));
    digested.push({ name: file.name as BackupHead['files'][number]['name'], bytes: size, sha256 });
  }
  const head = backupHead({ ...facts, files: digested });
  const total = digested.reduce((sum, { bytes }) => sum + bytes, 0);
  await withFile(part, 'wx', async (target) => {
    await writeAll(target, Buffer.from(`${JSON.stringify(head)}\n`, 'utf8'));
    let done = 0;
    for (const [index, { bytes }] of digested.entries()) {
      await withFile(files[index].path, 'r', (source) =>
        copyBytes(source, target, bytes, watch, (step) => {
          done += step;
          watch.onProgress?.(done, total);
        }),
      );
    }
    await target.sync();
  });
  return head;
}

async function withFile<T>(file: string, flags: string, use: (handle: FileHandle) => Promise<T>): Promise<T> {
  const handle = await open(file, flags);
  try {
    return await use(handle);
  } finally {
    await handle.close();
  }
}
