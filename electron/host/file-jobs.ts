import { rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import path from 'node:path';
import { FILE_PIECE_LIMIT_BYTES } from '../contract/papers.ts';
import type { FileJobBegun, PaperJob, ParsedRequest, Reply } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { PaperJobEnd, PaperJobs, PaperJobWatch } from './paper-desk-jobs.ts';
import type { PassingFiles } from './passing-files.ts';
import { placeGone } from './storage-failure.ts';

/** Work that ends in one file. Its end names the file by itself. */
export interface FileWork {
  kind: PaperJob['kind'];
  suggestedName: string;
  /** What the file is, for a sentence: 'backup', 'table'. */
  what: string;
  /** Writes the file `to`, whole or not at all. */
  work(watch: PaperJobWatch, to: string): Promise<PaperJobEnd>;
  /** Called once work that has begun is over, however it went; also where there was no place for its file. */
  over?(): void;
}

export interface FileJobs {
  begin(work: FileWork, by: string): Promise<FileJobBegun>;
  /** @throws HostError 'not-found' (no such job), 'conflict' (it has no file here), 'bad-request' (behind its end) */
  read(request: ParsedRequest<'readJobFile'>, by: string): Promise<Reply<'readJobFile'>>;
  /** Removes what nobody fetched; jobs are over by then. */
  close(): void;
}

interface Made {
  jobId: string;
  folder: string;
  file: string;
}

/**
 * Jobs that make a file: where the shell can ask, it is asked first and the file put there; otherwise it waits in a folder of its
 * own to be fetched in pieces, and the newest of its kind that a person had made takes the place of the one before.
 */
export function createFileJobs(
  jobs: PaperJobs,
  askWhereToSave: ((suggestedName: string) => Promise<string | null>) | undefined,
  passing: PassingFiles,
): FileJobs {
  const made = new Map<string, Made>();

  async function toPlace({ work, what }: FileWork, watch: PaperJobWatch, to: string): Promise<PaperJobEnd> {
    try {
      return { ...(await work(watch, to)), file: { fileName: path.basename(to), fetch: false } };
    } catch (error) {
      throw placeGone(error, what) ?? error;
    }
  }

  async function toFetch({ kind, suggestedName, work }: FileWork, by: string, jobId: string, watch: PaperJobWatch) {
    const folder = passing.makeFolder();
    try {
      const file = path.join(folder, suggestedName);
      const end = await work(watch, file);
      const key = `${kind} ${by}`;
      const before = made.get(key);
      made.set(key, { jobId, folder, file });
      if (before) removeFolder(before.folder);
      return { ...end, file: { fileName: suggestedName, fetch: true } };
    } catch (error) {
      removeFolder(folder);
      throw error;
    }
  }

  function start({ kind, over }: FileWork, by: string, work: (watch: PaperJobWatch) => Promise<PaperJobEnd>): FileJobBegun {
    return { outcome: 'started', job: jobs.start(kind, by, (watch) => work(watch).finally(() => over?.())) };
  }

  return {
    async begin(work, by) {
      if (!askWhereToSave) return start(work, by, (watch) => toFetch(work, by, watch.jobId, watch));
      const to = await askWhereToSave(work.suggestedName);
      return to === null ? { outcome: 'cancelled' } : start(work, by, (watch) => toPlace(work, watch, to));
    },
    async read({ jobId, offset }, by) {
      const job = jobs.get(jobId, by);
      const own = [...made.values()].find((one) => one.jobId === jobId);
      if (job.state !== 'done' || !own)
        throw new HostError('conflict', 'This job has no file to fetch, or a later one has taken its place.');
      const handle = await open(own.file, 'r');
      try {
        const { size } = await handle.stat();
        if (offset > size) throw new HostError('bad-request', `The file is ${size} bytes long and has nothing at ${offset}.`);
        const length = Math.min(FILE_PIECE_LIMIT_BYTES, size - offset);
        const { buffer, bytesRead } = await handle.read(Buffer.alloc(length), 0, length, offset);
        const next = offset + bytesRead;
        return {
          piece: buffer.subarray(0, bytesRead).toString('base64'),
          total: size,
          nextOffset: next < size ? next : null,
        };
      } finally {
        await handle.close();
      }
    },
    close() {
      for (const { folder } of made.values()) removeFolder(folder);
      made.clear();
    },
  };
}

function removeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
}
