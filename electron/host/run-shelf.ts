import type { ExpressionBuilder } from 'kysely';
import { encodeHandLog } from '../../sim-core/index.ts';
import type { Decision, Hand, ParsedRequest, RunRecord, RunState, RunSummary, SpeedGuess, Standing } from '../contract.ts';
import { HostError } from './host-error.ts';
import { personName } from './people.ts';
import type { RecordsDatabase, RecordsTables, RunRow } from './records-tables.ts';
import { joinSpool } from './run-spool.ts';

export const SUMMARY_COLUMNS = [
  'runs.id',
  'runs.state',
  'runs.source',
  'runs.person_id',
  'runs.drill_hash',
  'runs.seed',
  'runs.hand_kind',
  'runs.hand_name',
  'runs.core_version',
  'runs.began_at',
  'runs.ended_at',
  'runs.tick_count',
  'runs.score',
  'runs.passed',
  'runs.assignment_id',
  'runs.sealed',
  'runs.submitted_at',
  'runs.decision',
  'runs.decided_at',
  'drill_versions.drill_id',
  'drill_versions.title',
  'people.role',
  'people.number',
] as const;

export interface RunShelf {
  /** @param openOnly leaves out assessments that are not decided, wherever marks are asked for */
  list(request: ParsedRequest<'listRuns'>, openOnly?: boolean): Promise<{ total: number; runs: RunSummary[] }>;
  /** Tries, best mark and pass for each drill that was tried; null = by anybody. Imported runs are nobody's tries. */
  standings(personId: string | null, openOnly?: boolean): Promise<Standing[]>;
  /** @throws HostError 'not-found' */
  summary(runId: string): Promise<RunSummary>;
  /** @throws HostError 'not-found' */
  get(runId: string): Promise<RunRecord>;
}

/** Whose marks an apprentice may see. */
export const isOpen = (one: ExpressionBuilder<RecordsTables, 'runs'>) =>
  one.or([one('runs.sealed', '=', 0), one('runs.decision', 'is not', null)]);

/** Reads runs; changes nothing. */
export function createRunShelf(db: RecordsDatabase): RunShelf {
  const joined = () =>
    db
      .selectFrom('runs')
      .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
      .leftJoin('people', 'people.id', 'runs.person_id');

  async function summary(runId: string): Promise<RunSummary> {
    const row = await joined().select(SUMMARY_COLUMNS).where('runs.id', '=', runId).executeTakeFirst();
    if (!row) throw new HostError('not-found', `There is no run ${runId} in these records.`);
    return summaryOfRow(row);
  }

  return {
    summary,
    async list(request, openOnly = false) {
      let matching = joined();
      if (request.personId !== undefined) matching = matching.where('runs.person_id', '=', request.personId);
      if (request.drillId !== undefined) matching = matching.where('drill_versions.drill_id', '=', request.drillId);
      if (request.states !== undefined) matching = matching.where('runs.state', 'in', request.states);
      if (request.passed !== undefined && openOnly) matching = matching.where(isOpen);
      if (request.passed !== undefined) matching = matching.where('runs.passed', '=', request.passed ? 1 : 0);
      const { total } = await matching.select((count) => count.fn.countAll<number>().as('total')).executeTakeFirstOrThrow();
      const rows = await matching
        .select(SUMMARY_COLUMNS)
        .orderBy('runs.began_at', 'desc')
        .orderBy('runs.id', 'desc')
        .limit(request.limit)
        .offset(request.offset)
        .execute();
      return { total: Number(total), runs: rows.map(summaryOfRow) };
    },
    async standings(personId, openOnly = false) {
      let mine = joined().where('runs.source', '=', 'here');
      if (personId !== null) mine = mine.where('runs.person_id', '=', personId);
      const rows = await mine
        .select('drill_versions.drill_id')
        .select((one) => [
          one.fn.countAll<number>().as('tries'),
          (openOnly ? one.fn.max('runs.score').filterWhere(isOpen) : one.fn.max('runs.score')).as('best'),
          (openOnly ? one.fn.max('runs.passed').filterWhere(isOpen) : one.fn.max('runs.passed')).as('passed'),
        ])
        .groupBy('drill_versions.drill_id')
        .orderBy('drill_versions.drill_id')
        .execute();
      return rows.map((row) => ({
        drillId: row.drill_id,
        tries: Number(row.tries),
        bestScore: row.best,
        passed: row.passed === 1,
      }));
    },
    async get(runId) {
      const short = await summary(runId);
      const row = await db
        .selectFrom('runs')
        .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
        .leftJoin('run_contents', 'run_contents.run_id', 'runs.id')
        .select([
          'run_contents.inputs',
          'run_contents.digests',
          'runs.final_digest',
          'run_contents.score_record',
          'runs.trace_hz',
          'run_contents.trace_fields',
          'run_contents.trace_columns',
          'runs.choices',
          'runs.hand_scale',
          'runs.speed_guess',
          'runs.diagnosis',
          'drill_versions.text',
        ])
        .where('runs.id', '=', runId)
        .executeTakeFirstOrThrow();
      const inputs = row.inputs ?? encodeHandLog(await joinSpool(db, runId));
      return {
        ...short,
        drillText: row.text,
        inputs: base64(inputs),
        choices: row.choices === null ? null : JSON.parse(row.choices),
        handScale: row.hand_scale === null ? null : JSON.parse(row.hand_scale),
        speedGuess: row.speed_guess as SpeedGuess | null,
        diagnosis: row.diagnosis === null ? null : JSON.parse(row.diagnosis),
        digests: row.digests === null ? null : JSON.parse(row.digests),
        finalDigest: row.final_digest,
        scoreRecord: row.score_record === null ? null : JSON.parse(row.score_record),
        trace:
          row.trace_hz === null || row.trace_fields === null || row.trace_columns === null
            ? null
            : { hz: row.trace_hz, fields: JSON.parse(row.trace_fields), columns: base64(row.trace_columns) },
      };
    },
  };
}

export interface SummaryRow
  extends Pick<
    RunRow,
    | 'id'
    | 'state'
    | 'source'
    | 'person_id'
    | 'drill_hash'
    | 'seed'
    | 'hand_kind'
    | 'hand_name'
    | 'core_version'
    | 'began_at'
    | 'ended_at'
    | 'tick_count'
    | 'score'
    | 'passed'
    | 'assignment_id'
    | 'sealed'
    | 'submitted_at'
    | 'decision'
    | 'decided_at'
  > {
  drill_id: string;
  title: string;
  role: string | null;
  number: number | null;
}

export function summaryOfRow(row: SummaryRow): RunSummary {
  return {
    id: row.id,
    state: row.state as RunState,
    source: row.source as RunSummary['source'],
    personId: row.person_id,
    personName: row.role === null || row.number === null ? null : personName(row.role, row.number),
    drillId: row.drill_id,
    drillHash: row.drill_hash,
    drillTitle: row.title,
    seed: row.seed,
    hand: { kind: row.hand_kind as Hand['kind'], name: row.hand_name },
    coreVersion: row.core_version,
    beganAt: row.began_at,
    endedAt: row.ended_at,
    tickCount: row.tick_count,
    score: row.score,
    passed: row.passed === null ? null : row.passed === 1,
    ...(row.sealed === 1 || row.assignment_id !== null || row.submitted_at !== null
      ? {
          assessment: {
            sealed: row.sealed === 1,
            assignmentId: row.assignment_id,
            submittedAt: row.submitted_at,
            decision: row.decision as Decision | null,
            decidedAt: row.decided_at,
          },
        }
      : {}),
  };
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64');
}
