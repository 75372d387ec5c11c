import type { RunSummary } from '../../electron/contract.ts';
import { callHost } from '../app/host-client.ts';
import type { Due, Progress } from './next-practice.ts';

/** Runs fetched at once: the most that a call gives. */
const RUNS_AT_ONCE = 200;

/** Runs of a person, newest first, as far as they were asked for. */
export interface OwnRuns {
  runs: readonly RunSummary[];
  runTotal: number;
  /** Attempts that the host would take for a decision now. */
  mayHandIn: ReadonlySet<string>;
}

export interface OwnRecords extends OwnRuns {
  due: Due[];
  progress: Progress;
}

async function handInable(runs: readonly RunSummary[]): Promise<Set<string>> {
  const runIds = runs
    .filter(({ state, assessment }) => state === 'finished' && assessment !== undefined && assessment.submittedAt === null)
    .map(({ id }) => id);
  if (runIds.length === 0) return new Set();
  const { reasons } = await callHost('checkHandIn', { runIds });
  return new Set(reasons.filter(({ reason }) => reason === null).map(({ runId }) => runId));
}

async function fetchRuns(personId: string, offset: number): Promise<OwnRuns> {
  const { runs, total } = await callHost('listRuns', { personId, limit: RUNS_AT_ONCE, offset });
  return { runs, runTotal: total, mayHandIn: await handInable(runs) };
}

export async function fetchOwnRecords(personId: string): Promise<OwnRecords> {
  const [{ due }, progress, runs] = await Promise.all([
    callHost('listDue', { personId }),
    callHost('getProgress', { personId }),
    fetchRuns(personId, 0),
  ]);
  return { due, progress, ...runs };
}

/**
 * Fetches the runs before those that are known. What it resolves with joins them to what is known by then: once, and only where that
 * still ends where they go on.
 */
export async function fetchOlderRuns(personId: string, known: OwnRuns): Promise<<T extends OwnRuns>(now: T) => T> {
  const older = await fetchRuns(personId, known.runs.length);
  return (now) => {
    if (now.runs !== known.runs) return now;
    const mayHandIn = new Set([...now.mayHandIn, ...older.mayHandIn]);
    return { ...now, runs: [...now.runs, ...older.runs], runTotal: older.runTotal, mayHandIn };
  };
}
