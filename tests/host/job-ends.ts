import { setTimeout as wait } from 'node:timers/promises';
import type { FileJobBegun, PaperJob, Reply } from '../../electron/contract.ts';
import type { TestPage } from './open-test-host.ts';

/** What a job came to. */
export async function endOfJob(page: TestPage, { id }: Pick<PaperJob, 'id'>): Promise<PaperJob> {
  for (;;) {
    const job = await page.ask('getJob', { jobId: id });
    if (job.state !== 'running') return job;
    await wait(10);
  }
}

/** The bytes of the file that a job has made. */
export async function fetchJobFile(page: TestPage, jobId: string): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for (let offset: number | null = 0; offset !== null; ) {
    const { piece, nextOffset }: Reply<'readJobFile'> = await page.ask('readJobFile', { jobId, offset });
    pieces.push(Buffer.from(piece, 'base64'));
    offset = nextOffset;
  }
  return Buffer.concat(pieces);
}

export function startedJob(begun: FileJobBegun): PaperJob {
  if (begun.outcome !== 'started') throw new Error('The work was cancelled.');
  return begun.job;
}

/** The text of a file from its beginning to its being fetched. */
export async function fileTextOf(page: TestPage, begun: FileJobBegun): Promise<string> {
  const job = await endOfJob(page, startedJob(begun));
  if (job.state !== 'done') throw new Error(`The job ${job.state}: ${job.problem}`);
  return (await fetchJobFile(page, job.id)).toString('utf8');
}

/** What cutting a run again came to. @throws where it came to nothing */
export async function checkOf(page: TestPage, runId: string): Promise<NonNullable<PaperJob['check']>> {
  const { check, state, problem } = await endOfJob(page, await page.ask('startCheck', { runId }));
  if (check === null) throw new Error(`The check ${state}: ${problem}`);
  return check;
}
