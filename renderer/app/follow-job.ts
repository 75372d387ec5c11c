import type { PaperJob } from '../../electron/contract.ts';
import { callHost } from './host-client.ts';

/** Waits before the next question, ms: short work is told of at once, long work is not asked about all the time. */
const FIRST_WAIT_MS = 60;
const LONGEST_WAIT_MS = 500;

/** Asks about a job of the host's until it is over, telling every answer before. Resolves with what it came to. */
export async function followJob(started: PaperJob, onAnswer: (job: PaperJob) => void): Promise<PaperJob> {
  let job = started;
  for (let waitMs = FIRST_WAIT_MS; job.state === 'running'; waitMs = Math.min(LONGEST_WAIT_MS, waitMs * 2)) {
    onAnswer(job);
    await new Promise((resolve) => setTimeout(resolve, waitMs));
    job = await callHost('getJob', { jobId: job.id });
  }
  return job;
}
