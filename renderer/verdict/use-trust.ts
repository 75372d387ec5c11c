import { useCallback, useEffect, useState } from 'react';
import type { PaperJob } from '../../electron/contract.ts';
import type { Verdict } from '../../sim-core/index.ts';
import { errorWords } from '../app/error-words.ts';
import { followJob } from '../app/follow-job.ts';
import { callHost } from '../app/host-client.ts';
import { inEnglish } from '../text/in-english.ts';

/** How far a record can be trusted, as `verify` tells a run file; 'checking' until it was cut again, 'stopped' where somebody stopped that. */
export interface Trust {
  state: Verdict | 'checking' | 'stopped' | 'unknown';
  /** What was found, and where, for `<Told>`; null where there is nothing to add. */
  reason: string | null;
  /** Ticks cut again, of how many; both 0 before that is known. */
  done: number;
  total: number;
  /** Stops the checking. */
  stop(): void;
  /** Checks anew what was stopped or could not be checked. */
  again(): void;
}

type Found = Pick<Trust, 'state' | 'reason' | 'done' | 'total'>;

const CHECKING: Found = { state: 'checking', reason: null, done: 0, total: 0 };
const unchecked = (state: 'stopped' | 'unknown', reason: string | null): Found => ({ state, reason, done: 0, total: 0 });

/** What a check that is over has come to. */
export function foundBy({ check, state, problem, done, total }: PaperJob): Found {
  if (check) return { state: check.trust, reason: check.trust === 'same' ? null : inEnglish(check.sentence), done, total };
  if (state === 'stopped') return unchecked('stopped', null);
  return unchecked('unknown', problem === null ? null : inEnglish(problem));
}

/** Has a run cut again and held against its record and against what was handed in. Leaving the page stops it. */
export function useTrust(runId: string | null): Trust {
  const [found, setFound] = useState<Found>(CHECKING);
  const [jobId, setJobId] = useState<string | null>(null);
  const [round, setRound] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: every round checks anew
  useEffect(() => {
    if (runId === null) return;
    let wanted = true;
    let running: string | null = null;
    const stopIt = (id: string) => void callHost('stopJob', { jobId: id }).catch(() => undefined);
    const check = async () => {
      const started = await callHost('startCheck', { runId });
      if (!wanted) return stopIt(started.id);
      running = started.id;
      setJobId(started.id);
      const job = await followJob(started, ({ done, total }) => wanted && setFound({ ...CHECKING, done, total }));
      running = null;
      if (wanted) setFound(foundBy(job));
    };
    setFound(CHECKING);
    setJobId(null);
    check().catch((error: unknown) => wanted && setFound(unchecked('unknown', errorWords(error))));
    return () => {
      wanted = false;
      if (running !== null) stopIt(running);
    };
  }, [runId, round]);

  const stop = useCallback(() => {
    // What is done already is not stopped; its end is told as it is.
    if (jobId !== null)
      callHost('stopJob', { jobId }).catch((error: unknown) => setFound(unchecked('unknown', errorWords(error))));
  }, [jobId]);
  const again = useCallback(() => setRound((before) => before + 1), []);
  return { ...found, stop, again };
}
