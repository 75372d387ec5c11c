import { HostError } from './host-error.ts';

/** Primary result codes of SQLite, https://www.sqlite.org/rescode.html; the low byte of an extended code. */
const SQLITE_PERM = 3;
const SQLITE_BUSY = 5;
const SQLITE_READONLY = 8;
const SQLITE_IOERR = 10;
const SQLITE_CORRUPT = 11;
const SQLITE_FULL = 13;
const SQLITE_CANTOPEN = 14;
const SQLITE_NOTADB = 26;

/** Primary result code of an error thrown by node:sqlite, or null where it is another kind of error. */
export function sqliteResultCode(error: unknown): number | null {
  if (!(error instanceof Error) || !('errcode' in error) || typeof error.errcode !== 'number') return null;
  return error.errcode & 0xff;
}

/** Error name of the file system ('ENOSPC', 'EROFS'...), or null. */
export function fileErrorName(error: unknown): string | null {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' && /^E[A-Z0-9]+$/.test(error.code)
    ? error.code
    : null;
}

/** What node:sqlite throws where a cell holds a whole number that no JavaScript number is. */
export function isTooLargeNumber(error: unknown): boolean {
  return error instanceof RangeError && 'code' in error && error.code === 'ERR_OUT_OF_RANGE';
}

/**
 * A failure of disk or database as a sentence; null where `error` is something else.
 * @param where the file or folder, for the sentence
 */
export function storageFailure(error: unknown, where: string): HostError | null {
  const cause = { cause: error };
  switch (fileErrorName(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return diskFull(where, cause);
    case 'EROFS':
    case 'EACCES':
    case 'EPERM':
      return readOnly(where, cause);
    default:
  }
  if (isTooLargeNumber(error)) return damaged(where, cause);
  switch (sqliteResultCode(error)) {
    case SQLITE_FULL:
      return diskFull(where, cause);
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return readOnly(where, cause);
    case SQLITE_BUSY:
      return new HostError('in-use', `Another program is using the records in ${where}; close it and try again.`, cause);
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return damaged(where, cause);
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
      return new HostError(
        'internal',
        `The disk did not answer while reading or writing ${where}; nothing that was already kept is lost.`,
        cause,
      );
    default:
      return null;
  }
}

/** Where the folder that somebody chose for a file is not there any more; null where `error` is something else. @param what the file, for the sentence */
export function placeGone(error: unknown, what: string): HostError | null {
  if (fileErrorName(error) !== 'ENOENT') return null;
  return new HostError('not-found', `The place that was chosen for the ${what} is not there; choose another.`, { cause: error });
}

export function damaged(where: string, options?: ErrorOptions): HostError {
  return new HostError(
    'damaged',
    `The records file ${where} is damaged or is not a Kerfhand records file; it was left as it is, so move it away or put a good copy in its place.`,
    options,
  );
}

function diskFull(where: string, options: ErrorOptions): HostError {
  return new HostError(
    'disk-full',
    `The disk that holds ${where} is full; free some space and try again, nothing already kept is lost.`,
    options,
  );
}

function readOnly(where: string, options: ErrorOptions): HostError {
  return new HostError('read-only', `${where} cannot be written to, so this was not kept.`, options);
}
