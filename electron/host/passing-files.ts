import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Folder for files that are only passing through: made to be fetched in pieces, or coming in in pieces. They hold data of people. */
const PASSING = '.passing';

/** Begins the name of a folder in which a backup is unpacked, until it takes the place of the records. */
export const RESTORING = 'restore-';

/** What a power cut leaves in a data folder, besides the passing files: parts of files, and a restoring that was cut off. */
const LEFT_OVER = [
  /^write-probe-\d+$/,
  /^\.records\.ledger-tail\..+\.part$/,
  /^\.next-start\..+\.part$/,
  new RegExp(`^${RESTORING}[A-Za-z0-9]{6}$`),
];

/** Makes folders for passing files. */
export interface PassingFiles {
  /** Where the folders stand, for sentences. */
  readonly where: string;
  /** A new folder; to be removed by whoever asked for it. */
  makeFolder(): string;
}

/**
 * They stand in the data folder, not in the system's place for temporary files: a process that is killed leaves them behind, and
 * there the next start finds and removes them.
 * @param dataFolder owned by the caller; null = nothing is kept there, and the system's place is used
 */
export function passingFiles(dataFolder: string | null): PassingFiles {
  const where = dataFolder === null ? tmpdir() : path.join(dataFolder, PASSING);
  return {
    where,
    makeFolder() {
      if (dataFolder !== null) mkdirSync(where, { recursive: true, mode: 0o700 });
      return mkdtempSync(path.join(where, 'kerfhand-file-'));
    },
  };
}

/** Removes what a killed process left in a data folder. Only for its owner: what another is writing now looks the same. */
export function removeLeftOvers(folder: string): void {
  for (const name of readdirSync(folder)) {
    if (name === PASSING || LEFT_OVER.some((pattern) => pattern.test(name)))
      rmSync(path.join(folder, name), { recursive: true, force: true });
  }
}
