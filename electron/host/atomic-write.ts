import { randomUUID } from 'node:crypto';
import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import path from 'node:path';
import { storageFailure } from './storage-failure.ts';

/** Letters of a file's name that the name of its part repeats: with what comes behind them, any system takes it. */
const NAME_LETTERS = 60;

/**
 * Writes a file so that at any moment, power cut included, its name leads to the whole old content or the whole new one.
 * @throws HostError 'disk-full' or 'read-only'; the old file is then untouched and nothing is left beside it
 */
export function atomicWrite(file: string, content: string | Uint8Array): void {
  const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
  const temporary = partBeside(file);
  try {
    const handle = openSync(temporary, 'wx');
    try {
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(temporary, file);
    syncFolder(path.dirname(file));
  } catch (error) {
    rmSync(temporary, { force: true });
    throw storageFailure(error, file) ?? error;
  }
}

/** Where a file is written before it is whole. */
export function partBeside(file: string): string {
  return path.join(path.dirname(file), `.${path.basename(file).slice(0, NAME_LETTERS)}.${randomUUID()}.part`);
}

/** What a system says of a folder that may be written to and not read, or that cannot be synced. */
const NOT_TO_BE_SYNCED: readonly unknown[] = ['EACCES', 'EPERM', 'EINVAL'];

/**
 * Makes renames in a folder last, where it can be synced: the file stands there whole without it.
 * @param sync in place of the system's own, for tests
 */
export function syncFolder(folder: string, sync = syncBySystem): void {
  try {
    sync(folder);
  } catch (error) {
    if (!NOT_TO_BE_SYNCED.includes((error as NodeJS.ErrnoException).code)) throw error;
  }
}

/** Windows has no such call on a folder and needs none. */
function syncBySystem(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
