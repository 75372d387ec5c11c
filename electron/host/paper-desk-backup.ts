import { randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import path from 'node:path';
import type { BackupFacts, ParsedRequest, Person, Reply } from '../contract.ts';
import type { ExportNotes } from './export-notes.ts';
import type { FileJobs } from './file-jobs.ts';
import { HostError } from './host-error.ts';
import type { PaperJobEnd, PaperJobWatch } from './paper-desk-jobs.ts';
import { backUpYard } from './papers/back-up-yard.ts';
import type { BackupHead } from './papers/backup-file.ts';
import { writeAll } from './papers/copy-bytes.ts';
import { inspectBackup } from './papers/restore-yard.ts';
import type { PassingFiles } from './passing-files.ts';
import type { Passphrases } from './passphrases.ts';
import { keepForStart, waitingRestore, withdrawRestore } from './restore-at-start.ts';
import { RunQueue } from './run-queue.ts';
import { storageFailure } from './storage-failure.ts';

/** Largest backup that is taken in over the page: some thousand runs fit many times over. */
const UPLOAD_LIMIT_BYTES = 8 * 1024 ** 3;

export interface BackupDesk {
  /** @throws HostError 'read-only' (nothing is kept), 'conflict' (one is being made) */
  backUp(by: string): Promise<Reply<'backUp'>>;
  /** @throws HostError 'not-found', 'conflict' (a piece does not follow), 'too-large', 'disk-full' */
  add(request: ParsedRequest<'addToBackup'>, by: string): Promise<Reply<'addToBackup'>>;
  /** @throws HostError 'not-found', 'bad-file', 'newer-version' */
  inspect(uploadId: string, by: string): Promise<BackupFacts>;
  /** @throws HostError as `inspect`, 'wrong-passphrase', 'wait', 'read-only' (nothing is kept) */
  restore(request: ParsedRequest<'restoreAtNextStart'>, by: Person): Promise<BackupFacts>;
  waiting(): Reply<'getWaitingRestore'>;
  withdraw(): Record<string, never>;
  close(): Promise<void>;
}

export interface BackupDeskNeeds {
  /** Folder of the records; null where nothing is kept. */
  folder: string | null;
  appVersion: string;
  fileJobs: FileJobs;
  passphrases: Passphrases;
  exports: ExportNotes;
  passing: PassingFiles;
}

interface Upload {
  id: string;
  by: string;
  folder: string;
  file: string;
  received: number;
}

/** The whole yard out to one file, and a look into one that came in. Neither touches the records that are open. */
export function createBackupDesk(needs: BackupDeskNeeds): BackupDesk {
  const { folder, appVersion, fileJobs, passphrases, exports, passing } = needs;
  const inOrder = new RunQueue();
  let isBusy = false;
  let upload: Upload | null = null;

  async function write(records: string, by: string, watch: PaperJobWatch, to: string): Promise<PaperJobEnd> {
    const head = await backUpYard({ folder: records, to, appVersion, madeAt: new Date(), ...watch });
    const { size } = await stat(to);
    const fileName = path.basename(to);
    await exports.add({ who: by, subject: 'yard', body: { what: 'backup', fileName, sha256: head.sha256, bytes: size } });
    return { backup: factsOf(head, size) };
  }

  function uploadOf(uploadId: string, by: string): Upload {
    if (upload?.id === uploadId && upload.by === by) return upload;
    throw new HostError('not-found', 'There is no such backup here; choose the file again.');
  }

  function beginUpload(by: string): Upload {
    if (upload) removeFolder(upload.folder);
    const ownFolder = passing.makeFolder();
    upload = { id: randomUUID(), by, folder: ownFolder, file: path.join(ownFolder, 'upload'), received: 0 };
    return upload;
  }

  return {
    async backUp(by) {
      if (folder === null) throw new HostError('read-only', 'Nothing of this session is kept, so there is nothing to back up.');
      if (isBusy) throw new HostError('conflict', 'A backup is being made already; wait for it, or stop it.');
      isBusy = true;
      const suggestedName = `yard-${new Date().toISOString().slice(0, 16).replace(/[-:]/g, '').replace('T', '-')}.kerfhand-backup`;
      const work = (watch: PaperJobWatch, to: string) => write(folder, by, watch, to);
      const over = () => {
        isBusy = false;
      };
      try {
        const begun = await fileJobs.begin({ kind: 'back-up', suggestedName, what: 'backup', work, over }, by);
        if (begun.outcome === 'cancelled') over();
        return begun;
      } catch (error) {
        over();
        throw error;
      }
    },
    add: ({ uploadId, offset, piece }, by) =>
      inOrder.inOrder('upload', async () => {
        if (uploadId === null && offset !== 0) throw new HostError('conflict', 'The first piece of a backup has the offset 0.');
        const to = uploadId === null ? beginUpload(by) : uploadOf(uploadId, by);
        if (offset !== to.received)
          throw new HostError('conflict', `The next piece of this backup has the offset ${to.received}, not ${offset}.`);
        const bytes = Buffer.from(piece, 'base64');
        if (to.received + bytes.length > UPLOAD_LIMIT_BYTES)
          throw new HostError('too-large', 'This file is too large to be taken in as a backup.');
        try {
          // Cut to what is known to be whole: a piece that failed half way is sent again.
          const handle = await open(to.file, 'a');
          try {
            await handle.truncate(to.received);
            await writeAll(handle, bytes);
            to.received += bytes.length;
          } finally {
            await handle.close();
          }
        } catch (error) {
          throw storageFailure(error, passing.where) ?? error;
        }
        return { uploadId: to.id, received: to.received };
      }),
    inspect: (uploadId, by) => inOrder.inOrder('upload', () => inspectUpload(uploadOf(uploadId, by))),
    restore: ({ uploadId, passphrase }, by) =>
      inOrder.inOrder('upload', async () => {
        if (folder === null) throw new HostError('read-only', 'Nothing of this session is kept, so nothing can be restored.');
        const uploaded = uploadOf(uploadId, by.id);
        await passphrases.mustFit(by.id, passphrase);
        const backup = await inspectUpload(uploaded);
        await keepForStart(folder, uploaded.file, { askedBy: by.name, backup });
        return backup;
      }),
    waiting: () => ({ waiting: folder === null ? null : waitingRestore(folder) }),
    withdraw() {
      if (folder !== null) withdrawRestore(folder);
      return {};
    },
    async close() {
      await inOrder.inOrder('upload', async () => {
        if (upload) removeFolder(upload.folder);
        upload = null;
      });
    },
  };
}

async function inspectUpload({ file, received }: Upload): Promise<BackupFacts> {
  try {
    return factsOf(await inspectBackup(file), received);
  } catch (error) {
    if (!(error instanceof HostError)) throw error;
    // The page knows the file by another name than the one it has here.
    const words = error.message.replaceAll(`The backup ${file}`, 'The backup').replaceAll(file, 'This file');
    throw new HostError(error.code, words, { cause: error });
  }
}

function factsOf(head: BackupHead, size: number): BackupFacts {
  const { madeAt, appVersion, recordsVersion, people, runs, sha256 } = head;
  return { madeAt, appVersion, recordsVersion, people, runs, sha256, bytes: size };
}

function removeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}
