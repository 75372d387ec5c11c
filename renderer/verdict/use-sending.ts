import { useEffect, useState } from 'react';
import type { PaperJob } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';

const ASK_EVERY_MS = 500;

export interface Sending {
  job: PaperJob | null;
  begin(job: PaperJob): void;
  stop(): void;
}

/** Follows statements on their way to a store, until they are there or something stopped them. */
export function useSending(onTrouble: (error: Error) => void): Sending {
  const [job, setJob] = useState<PaperJob | null>(null);
  const jobId = job?.id ?? null;
  const running = job?.state === 'running';
  useEffect(() => {
    if (!running || jobId === null) return;
    const timer = setInterval(() => callHost('getJob', { jobId }).then(setJob, onTrouble), ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [running, jobId, onTrouble]);
  return {
    job,
    begin: setJob,
    stop: () => {
      if (jobId !== null) callHost('stopJob', { jobId }).then(setJob, onTrouble);
    },
  };
}
