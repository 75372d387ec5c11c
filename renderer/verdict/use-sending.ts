import { useCallback, useState } from 'react';
import type { PaperJob } from '../../electron/contract.ts';
import { followJob } from '../app/follow-job.ts';
import { callHost } from '../app/host-client.ts';

export interface Sending {
  job: PaperJob | null;
  begin(job: PaperJob): void;
  stop(): void;
}

/** Follows statements on their way to a store, until they are there or something stopped them. */
export function useSending(onTrouble: (error: Error) => void): Sending {
  const [job, setJob] = useState<PaperJob | null>(null);
  const begin = useCallback((begun: PaperJob) => void followJob(begun, setJob).then(setJob, onTrouble), [onTrouble]);
  const jobId = job?.id ?? null;
  const stop = useCallback(() => {
    if (jobId !== null) callHost('stopJob', { jobId }).catch(onTrouble);
  }, [jobId, onTrouble]);
  return { job, begin, stop };
}
