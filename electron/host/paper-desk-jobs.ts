import { randomUUID } from 'node:crypto';
import type { PaperJob } from '../contract.ts';
import { HostError } from './host-error.ts';
import { storageFailure } from './storage-failure.ts';

/** Jobs that are over and can still be asked about. */
const MOST_OVER = 20;

/** What a job gets to be watched and stopped with. */
export interface PaperJobWatch {
  jobId: string;
  signal: AbortSignal;
  onProgress(done: number, total: number): void;
}

/** What a job has come to. `problem`: why not all of it was done. */
export type PaperJobEnd = Partial<Pick<PaperJob, 'problem' | 'statements' | 'backup' | 'check' | 'taken' | 'file'>>;

export interface PaperJobs {
  /** Begins work that goes on after the call. */
  start(kind: PaperJob['kind'], by: string, work: (watch: PaperJobWatch) => Promise<PaperJobEnd>): PaperJob;
  /** @throws HostError 'not-found' where there is no such job, or it is another person's */
  get(jobId: string, by: string): PaperJob;
  stop(jobId: string, by: string): PaperJob;
  /** Stops what is under way and waits for its end. */
  close(): Promise<void>;
}

interface Kept {
  job: PaperJob;
  by: string;
  stop: AbortController;
  ended: Promise<void>;
}

/** Work that takes longer than a call should. @param log takes what only a developer needs to know */
export function createPaperJobs(log: (line: string) => void): PaperJobs {
  const jobs = new Map<string, Kept>();

  function kept(jobId: string, by: string): Kept {
    const found = jobs.get(jobId);
    if (!found || found.by !== by)
      throw new HostError('not-found', `There is no job ${jobId} of yours, or it was over long ago.`);
    return found;
  }

  function forgetOld(): void {
    const over = [...jobs.values()].filter(({ job }) => job.state !== 'running');
    for (const { job } of over.slice(0, Math.max(0, over.length - MOST_OVER))) jobs.delete(job.id);
  }

  function sentenceOf(error: unknown): string {
    const known = error instanceof HostError ? error : storageFailure(error, 'its place');
    if (known && known.code !== 'internal') return known.message;
    log(`job: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    return 'Something went wrong inside Kerfhand; what was kept before is safe.';
  }

  async function run(job: PaperJob, stop: AbortController, work: (watch: PaperJobWatch) => Promise<PaperJobEnd>): Promise<void> {
    const onProgress = (done: number, total: number) => Object.assign(job, { done, total });
    let end: PaperJobEnd;
    try {
      end = await work({ jobId: job.id, signal: stop.signal, onProgress });
    } catch (error) {
      end = { problem: sentenceOf(error) };
    }
    Object.assign(job, end);
    if (job.problem === null) job.state = 'done';
    else job.state = stop.signal.aborted ? 'stopped' : 'failed';
    forgetOld();
  }

  return {
    start(kind, by, work) {
      const start = { done: 0, total: 0, problem: null, statements: null, backup: null, check: null, taken: null, file: null };
      const job: PaperJob = { id: randomUUID(), kind, state: 'running', ...start };
      const stop = new AbortController();
      jobs.set(job.id, { job, by, stop, ended: run(job, stop, work) });
      return { ...job };
    },
    get: (jobId, by) => ({ ...kept(jobId, by).job }),
    stop(jobId, by) {
      const { job, stop } = kept(jobId, by);
      if (job.state === 'running') stop.abort();
      return { ...job };
    },
    async close() {
      for (const { stop } of jobs.values()) stop.abort();
      await Promise.all([...jobs.values()].map(({ ended }) => ended));
      jobs.clear();
    },
  };
}
