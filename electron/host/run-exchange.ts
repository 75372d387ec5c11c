import { randomUUID } from 'node:crypto';
import type { Insertable } from 'kysely';
import { encodeHandLog, encodeRunFile, type ReadRunFile, sameJson } from '../../sim-core/index.ts';
import type { Reply, RunRecord } from '../contract.ts';
import type { CoreTaskOptions, CoreWorkers } from './core-workers.ts';
import { contentHash } from './drill-text.ts';
import type { Drills } from './drills.ts';
import { emptyRunRow } from './empty-run-row.ts';
import type { HandOutFile } from './hand-out-file.ts';
import type { Ledger } from './ledger.ts';
import { keepMarks } from './practice-totals.ts';
import type { RecordsDatabase, RecordsTables, RunContentsRow } from './records-tables.ts';
import type { RunShelf } from './run-shelf.ts';
import { joinSpool } from './run-spool.ts';

export interface RunExchange {
  /** @throws HostError 'not-found', 'disk-full', 'read-only' */
  export(runId: string): Promise<Reply<'exportRun'>>;
  /** @throws HostError 'bad-file', 'newer-version', 'conflict' (stopped) */
  read(text: string, options?: CoreTaskOptions): Promise<ReadRunFile>;
  /** Keeps a run that was read. */
  keep(run: ReadRunFile, by: string | null): Promise<Reply<'importRun'>>;
}

export interface RunExchangeNeeds {
  db: RecordsDatabase;
  drills: Drills;
  shelf: RunShelf;
  ledger: Ledger;
  handOut: HandOutFile;
  core: CoreWorkers;
}

/** Runs out to run files and in from them. */
export function createRunExchange({ db, drills, shelf, ledger, handOut, core }: RunExchangeNeeds): RunExchange {
  /** A run in the records that is this very one: same inputs on the same plate with the same result. */
  async function findSame(run: ReadRunFile, drillHash: string): Promise<string | null> {
    const candidates = await db
      .selectFrom('runs')
      .leftJoin('run_contents', 'run_contents.run_id', 'runs.id')
      .select(['id', 'state', 'inputs', 'final_digest', 'score_record', 'choices', 'diagnosis'])
      .where('drill_hash', '=', drillHash)
      .where('seed', '=', run.seed)
      .where('tick_count', '=', run.tickCount)
      .where('core_version', '=', run.coreVersion)
      .where('hand_name', '=', run.hand.name)
      .where('state', '!=', 'open')
      .execute();
    for (const row of candidates) {
      if ((row.state === 'finished') !== run.finished || row.final_digest !== run.finalDigest) continue;
      if (!sameJson(kept(row.score_record), run.score)) continue;
      if (!sameJson(kept(row.choices), run.choices) || !sameJson(kept(row.diagnosis), run.diagnosis)) continue;
      if (Buffer.compare(row.inputs ?? encodeHandLog(await joinSpool(db, row.id)), run.inputs) === 0) return row.id;
    }
    return null;
  }

  return {
    async export(runId) {
      const run = await shelf.get(runId);
      return await handOut(runFileName(run), runFileText(run));
    },

    read: (text, options) => core.run('readRun', text, options),

    async keep(run, by) {
      const drill = { text: run.drillText, drill: run.drill, hash: contentHash(run.drillText) };
      const same = await findSame(run, drill.hash);
      if (same !== null) return { run: await shelf.summary(same), outcome: 'same' };
      await drills.keepFromRun(drill);
      const row = rowOf(run, drill.hash);
      await db.transaction().execute(async (step) => {
        await step.insertInto('runs').values(row).execute();
        await step.insertInto('run_contents').values(contentsOf(run, row.id)).execute();
        await keepMarks(step, row.id);
        const body = { drillId: run.drill.id, finalDigest: run.finalDigest };
        await ledger.add(step, { who: by, kind: 'import', subject: row.id, body });
      });
      await ledger.settle();
      return { run: await shelf.summary(row.id), outcome: 'added' };
    },
  };
}

/** The text of a run's file, as it is handed out. */
export function runFileText(run: RunRecord): string {
  return encodeRunFile({
    ...run,
    finished: run.state === 'finished',
    inputs: new Uint8Array(Buffer.from(run.inputs, 'base64')),
    digests: run.digests ?? [],
    score: run.scoreRecord,
  });
}

/** `hanger-tab-straight-6-20300131-094500-1a2b3c4d.kerfhand-run`: drill, when it began (UTC), which one. */
export function runFileName(run: RunRecord): string {
  const began = run.beganAt.slice(0, 19).replace(/[-:]/g, '').replace('T', '-');
  return `${run.drillId}-${began}-${run.id.slice(0, 8)}.kerfhand-run`;
}

/** A value kept as JSON text; null where there was none. */
function kept(text: string | null): unknown {
  return text === null ? null : JSON.parse(text);
}

/** The file does not say when the run was made: it is listed under the time it came in. */
function rowOf(run: ReadRunFile, drillHash: string): Insertable<RecordsTables['runs']> & { id: string } {
  const now = new Date().toISOString();
  return {
    ...emptyRunRow,
    id: randomUUID(),
    state: run.finished ? 'finished' : 'unfinished',
    source: 'imported',
    person_id: null,
    drill_hash: drillHash,
    seed: run.seed,
    hand_kind: run.hand.kind,
    hand_name: run.hand.name,
    core_version: run.coreVersion,
    began_at: now,
    ended_at: now,
    tick_count: run.tickCount,
    final_digest: run.finalDigest,
    score: run.score?.score ?? null,
    passed: run.score ? Number(run.score.passed) : null,
    trace_hz: run.trace?.hz ?? null,
    choices: run.choices ? JSON.stringify(run.choices) : null,
    hand_scale: run.handScale ? JSON.stringify(run.handScale) : null,
    diagnosis: run.diagnosis ? JSON.stringify(run.diagnosis) : null,
  };
}

function contentsOf(run: ReadRunFile, runId: string): RunContentsRow {
  return {
    run_id: runId,
    inputs: run.inputs,
    digests: run.finished ? JSON.stringify(run.digests) : null,
    score_record: run.score ? JSON.stringify(run.score) : null,
    trace_fields: run.trace ? JSON.stringify(run.trace.fields) : null,
    trace_columns: run.trace ? new Uint8Array(Buffer.from(run.trace.columns, 'base64')) : null,
  };
}
