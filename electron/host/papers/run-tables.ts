import { csvHead, csvRows } from './csv-text.ts';
import type { VerdictPayload } from './verdict.ts';

/**
 * Whether the assessor's signature is good and about this run as far as a table reads it: its drill, score and marks, and that by the
 * ledger the same person handed in the same result. Its inputs and its trace are not looked at, and it is not cut again.
 */
export type VerdictSignature = 'good' | 'does-not-fit';

/** A run as both tables tell it. Times are ISO 8601 UTC; null where there is no such thing. */
export interface RunForTable {
  runId: string;
  state: string;
  person: string | null;
  groups: readonly string[];
  drillId: string;
  drillTitle: string;
  drillHash: string;
  technique: string;
  material: string;
  thicknessMm: number;
  currentA: number;
  seed: number;
  handKind: string;
  handName: string;
  /** Said before any mark; null where nothing was. */
  speedGuess: string | null;
  coreVersion: string;
  beganAt: string;
  endedAt: string | null;
  /** Time under simulation. */
  durationS: number;
  score: number | null;
  passed: boolean | null;
  measures: readonly { id: string; mark: number; weight: number; mustReach?: number | null }[];
  /** Of one that the records have and nobody can read no more than that is told. */
  verdict:
    | (Pick<VerdictPayload, 'decision' | 'assessor' | 'at' | 'reasons' | 'overruled'> & { signature: VerdictSignature })
    | { signature: 'unreadable' }
    | null;
}

const RUN_COLUMNS = [
  'run_id',
  'state',
  'person',
  'groups',
  'drill_id',
  'drill_title',
  'drill_hash',
  'technique',
  'material',
  'thickness_mm',
  'current_a',
  'seed',
  'hand_kind',
  'hand_name',
  'core_version',
  'began_at',
  'ended_at',
  'duration_s',
  'score',
  'passed',
  'decision',
  'assessor',
  'decided_at',
  'reasons',
  'speed_guess',
  'signature',
] as const;

const MEASURE_COLUMNS = [
  'run_id',
  'person',
  'drill_id',
  'began_at',
  'measure',
  'mark',
  'weight',
  'must_reach',
  'overruled_mark',
  'overruled_reason',
  'signature',
] as const;

/** A table that is written some runs at a time: its first line, then rows in the order given. */
export interface RunTable {
  head: string;
  rowsOf(runs: readonly RunForTable[]): string;
}

/** 'runs': one row a run. 'measures': one for each measure of each run; the assessor's mark stands beside the run's own. */
export const RUN_TABLES: Readonly<Record<'runs' | 'measures', RunTable>> = {
  runs: { head: csvHead(RUN_COLUMNS), rowsOf: runRows },
  measures: { head: csvHead(MEASURE_COLUMNS), rowsOf: measureRows },
};

function readableVerdict({ verdict }: RunForTable) {
  return verdict?.signature === 'unreadable' ? null : verdict;
}

function runRows(runs: readonly RunForTable[]): string {
  const rows = runs.map((run) => {
    const verdict = readableVerdict(run);
    return {
      run_id: run.runId,
      state: run.state,
      person: run.person,
      groups: run.groups.join('|'),
      drill_id: run.drillId,
      drill_title: run.drillTitle,
      drill_hash: run.drillHash,
      technique: run.technique,
      material: run.material,
      thickness_mm: run.thicknessMm,
      current_a: run.currentA,
      seed: run.seed,
      hand_kind: run.handKind,
      hand_name: run.handName,
      core_version: run.coreVersion,
      began_at: run.beganAt,
      ended_at: run.endedAt,
      duration_s: run.durationS,
      score: run.score,
      passed: run.passed,
      decision: verdict?.decision ?? null,
      assessor: verdict?.assessor ?? null,
      decided_at: verdict?.at ?? null,
      reasons: verdict?.reasons ?? null,
      speed_guess: run.speedGuess,
      signature: run.verdict?.signature ?? null,
    };
  });
  return csvRows(RUN_COLUMNS, rows);
}

function measureRows(runs: readonly RunForTable[]): string {
  const rows = runs.flatMap((run) => {
    const verdict = readableVerdict(run);
    return run.measures.map(({ id, mark, weight, mustReach }) => {
      const overruled = verdict?.overruled.find((one) => one.measureId === id);
      return {
        run_id: run.runId,
        person: run.person,
        drill_id: run.drillId,
        began_at: run.beganAt,
        measure: id,
        mark,
        weight,
        must_reach: mustReach ?? null,
        overruled_mark: overruled?.mark ?? null,
        overruled_reason: overruled?.reason ?? null,
        signature: run.verdict?.signature ?? null,
      };
    });
  });
  return csvRows(MEASURE_COLUMNS, rows);
}
