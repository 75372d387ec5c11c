import { randomUUID } from 'node:crypto';
import type { ParsedRequest, Reply, RunSummary } from '../contract.ts';
import type { Drills } from './drills.ts';
import { HostError } from './host-error.ts';
import type { People } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { RunQueue } from './run-queue.ts';
import type { RunShelf } from './run-shelf.ts';
import { joinSpool, type RunSpool } from './run-spool.ts';

const FLOAT32_BYTES = 4;

export interface Runs {
  begin(request: ParsedRequest<'beginRun'>): Promise<Reply<'beginRun'>>;
  append(request: ParsedRequest<'appendToRun'>): Promise<Reply<'appendToRun'>>;
  finish(request: ParsedRequest<'finishRun'>): Promise<RunSummary>;
  abandon(runId: string): Promise<RunSummary>;
}

export interface RunsNeeds {
  db: RecordsDatabase;
  drills: Drills;
  people: People;
  shelf: RunShelf;
  spool: RunSpool;
}

/** The life of a run: begin, append, finish or abandon. Calls about one run are answered in the order in which they came. */
export function createRuns({ db, drills, people, shelf, spool }: RunsNeeds): Runs {
  const queue = new RunQueue();

  async function finish(request: ParsedRequest<'finishRun'>): Promise<RunSummary> {
    const run = await shelf.summary(request.runId);
    if (run.state === 'finished') return await finishedBefore(request, run);
    if (run.state === 'abandoned') throw new HostError('conflict', 'This run was abandoned and cannot be finished.');
    if (run.tickCount !== request.tickCount) {
      throw new HostError(
        'missing-chunks',
        `The run has ${request.tickCount} ticks, ${run.tickCount} of them are on disk; send the rest first.`,
      );
    }
    const trace = readTrace(request.trace);
    const inputs = await joinSpool(db, request.runId);
    await db.transaction().execute(async (step) => {
      await step
        .updateTable('runs')
        .set({
          state: 'finished',
          ended_at: new Date().toISOString(),
          inputs,
          digests: JSON.stringify(request.digests),
          final_digest: request.finalDigest,
          score: request.score.score,
          passed: request.score.passed ? 1 : 0,
          score_record: JSON.stringify(request.score),
          diagnosis: request.diagnosis === null ? null : JSON.stringify(request.diagnosis),
          trace_hz: request.trace.hz,
          trace_fields: JSON.stringify(request.trace.fields),
          trace_columns: trace,
        })
        .where('id', '=', request.runId)
        .execute();
      await step.deleteFrom('run_spool').where('run_id', '=', request.runId).execute();
    });
    spool.close(request.runId);
    return await shelf.summary(request.runId);
  }

  /** The page may ask again when the first answer was lost; only another result is a conflict. */
  async function finishedBefore(request: ParsedRequest<'finishRun'>, run: RunSummary): Promise<RunSummary> {
    const row = await db.selectFrom('runs').select('final_digest').where('id', '=', run.id).executeTakeFirstOrThrow();
    if (row.final_digest === request.finalDigest && run.tickCount === request.tickCount) return run;
    throw new HostError('conflict', 'This run is finished already with another result.');
  }

  return {
    async begin(request) {
      if (request.personId !== null) await people.get(request.personId);
      await spool.markSilent();
      const runId = randomUUID();
      const { hash, text } = await drills.keepForRun(request.drillId, request.drillHash);
      await db
        .insertInto('runs')
        .values({
          ...emptyRunRow,
          id: runId,
          state: 'open',
          source: 'here',
          person_id: request.personId,
          drill_hash: hash,
          seed: request.seed,
          hand_kind: request.hand.kind,
          hand_name: request.hand.name,
          core_version: request.coreVersion,
          choices: request.choices === null ? null : JSON.stringify(request.choices),
          began_at: new Date().toISOString(),
        })
        .execute();
      spool.begin(runId);
      return { runId, drillHash: hash, drillText: text };
    },
    append: (request) => queue.inOrder(request.runId, () => spool.append(request)),
    finish: (request) => queue.inOrder(request.runId, () => finish(request)),
    abandon: (runId) =>
      queue.inOrder(runId, async () => {
        const run = await shelf.summary(runId);
        if (run.state === 'finished') throw new HostError('conflict', 'This run is finished and cannot be abandoned any more.');
        if (run.state !== 'abandoned') {
          await db
            .updateTable('runs')
            .set({ state: 'abandoned', ended_at: new Date().toISOString() })
            .where('id', '=', runId)
            .execute();
        }
        spool.close(runId);
        return await shelf.summary(runId);
      }),
  };
}

/** Columns that a run has no value for yet. */
const emptyRunRow = {
  ended_at: null,
  tick_count: 0,
  inputs: null,
  digests: null,
  final_digest: null,
  score: null,
  passed: null,
  score_record: null,
  trace_hz: null,
  trace_fields: null,
  trace_columns: null,
  choices: null,
  diagnosis: null,
};

function readTrace(trace: ParsedRequest<'finishRun'>['trace']): Uint8Array {
  const bytes = new Uint8Array(Buffer.from(trace.columns, 'base64'));
  if (bytes.length % (FLOAT32_BYTES * trace.fields.length) !== 0) {
    throw new HostError(
      'bad-request',
      `The trace has ${bytes.length} bytes, which is no whole number of samples in ${trace.fields.length} columns.`,
    );
  }
  return bytes;
}
