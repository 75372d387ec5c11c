import { constants, existsSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { copyFile, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { type BackupFacts, backupFactsSchema } from '../contract/job.ts';
import { atomicWrite, syncFolder } from './atomic-write.ts';
import { HostError } from './host-error.ts';
import { restoreYard } from './papers/restore-yard.ts';
import { storageFailure } from './storage-failure.ts';

/** The backup that waits in the data folder, and who asked for it. */
const WAITING = 'next-start.kerfhand-backup';
const PART = `.${WAITING}.part`;
const ASKED = 'next-start.json';
/** One that could not be restored is kept under this name and not tried again. */
const REFUSED = 'not-restored.kerfhand-backup';

const askedSchema = z.strictObject({ askedBy: z.string(), backup: backupFactsSchema });
type Asked = z.infer<typeof askedSchema>;

/** What became of a backup that waited for the start. `keptAside`: name of the folder with the records of before. */
export type RestoredAtStart =
  | {
      ok: true;
      askedBy: string | null;
      backup: Pick<BackupFacts, 'madeAt' | 'sha256' | 'people' | 'runs'>;
      keptAside: string | null;
    }
  | { ok: false; sentence: string };

/** Lets a backup wait in the data folder for the next start: records that are open cannot be exchanged. */
export async function keepForStart(folder: string, file: string, asked: Asked): Promise<void> {
  const part = path.join(folder, PART);
  try {
    await copyFile(file, part, constants.COPYFILE_FICLONE);
    const handle = await open(part, 'r+');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
    atomicWrite(path.join(folder, ASKED), `${JSON.stringify(asked)}\n`);
    await rename(part, path.join(folder, WAITING));
    syncFolder(folder);
  } catch (error) {
    await rm(part, { force: true });
    throw storageFailure(error, folder) ?? error;
  }
}

/** What waits for the next start; null = nothing that was asked for. */
export function waitingRestore(folder: string): Asked | null {
  if (!existsSync(path.join(folder, WAITING))) return null;
  try {
    return askedSchema.parse(JSON.parse(readFileSync(path.join(folder, ASKED), 'utf8')));
  } catch {
    // Missing or damaged: it is not known who asked, and nothing is restored that nobody asked for.
    return null;
  }
}

export function withdrawRestore(folder: string): void {
  for (const name of [WAITING, ASKED, PART]) rmSync(path.join(folder, name), { force: true });
}

/**
 * Restores the backup that waits, before the records are opened. One that cannot be restored leaves the records as they are and
 * does not keep the program from starting. One that was restored goes on waiting until `withdrawRestore`: only then may it be
 * forgotten, when the ledger tells of it.
 * @returns null where none waits, or where another program has the records open and it goes on waiting
 */
export async function restoreAtStart(folder: string, appVersion: string): Promise<RestoredAtStart | null> {
  const file = path.join(folder, WAITING);
  if (!existsSync(file)) return null;
  try {
    const asked = waitingRestore(folder);
    if (!asked) throw new HostError('bad-file', 'It is not known who asked for it.');
    const { head, keptAside } = await restoreYard({ file, folder, appVersion, now: new Date() });
    const { madeAt, sha256, people, runs } = head;
    const aside = keptAside === null ? null : path.basename(keptAside);
    return { ok: true, askedBy: asked.askedBy, backup: { madeAt, sha256, people, runs }, keptAside: aside };
  } catch (error) {
    const failure = error instanceof HostError ? error : storageFailure(error, folder);
    if (!failure) throw error;
    if (failure.code === 'in-use') return null;
    const why = failure.message.replaceAll(`The backup ${file}`, 'It').replaceAll(file, 'It');
    // A disk that is full or locked says nothing against the backup: it goes on waiting.
    if (failure.code === 'read-only' || failure.code === 'disk-full')
      return { ok: false, sentence: `The backup that waits was not restored. ${why}` };
    renameSync(file, path.join(folder, REFUSED));
    withdrawRestore(folder);
    return { ok: false, sentence: `The backup was not restored and is kept as ${REFUSED}. ${why}` };
  }
}

/** For the person who starts the program next. */
export function restoredSentence({ backup, keptAside }: Extract<RestoredAtStart, { ok: true }>): string {
  const of = `${backup.madeAt.slice(0, 10)} ${backup.madeAt.slice(11, 16)} UTC`;
  const before = keptAside === null ? '' : ` The records of before are kept in the folder ${keptAside}.`;
  return `The yard was restored from the backup of ${of}.${before}`;
}
