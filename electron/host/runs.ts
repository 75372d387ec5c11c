import { randomUUID } from 'node:crypto';
import {
  CORE_VERSION,
  encodeHandLog,
  impossibleMotion,
  impossibleMotionSentence,
  type RigChoices,
} from '../../sim-core/index.ts';
import type { ParsedRequest, Reply, RunSummary, SpeedGuess } from '../contract.ts';
import type { Assignments } from './assignments.ts';
import type { CoreWorkers } from './core-workers.ts';
import { readDrillText } from './drill-text.ts';
import type { Drills } from './drills.ts';
import { emptyRunRow } from './empty-run-row.ts';
import { HostError } from './host-error.ts';
import type { MarkedRun } from './mark-again.ts';
import type { People } from './people.ts';
import { addToPractice, keepMarks } from './practice-totals.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { RunQueue } from './run-queue.ts';
import type { RunShelf } from './run-shelf.ts';
import { joinSpool, type RunSpool } from './run-spool.ts';
import { isAssessment } from './sealed-assessment.ts';

const FLOAT32_BYTES = 4;

export interface Runs {
  /**
   * `rolesBind`: without roles nobody could decide on an assessment, so none is sealed. `withDrafts`: as `Drills` has it.
   * @throws HostError 'conflict' for a page of another core: its runs could not be cut again here, whatever it says of them
   */
  begin(request: ParsedRequest<'beginRun'>, as: { rolesBind: boolean; withDrafts: boolean }): Promise<Reply<'beginRun'>>;
  append(request: ParsedRequest<'appendToRun'>): Promise<Reply<'appendToRun'>>;
  finish(request: ParsedRequest<'finishRun'>): Promise<RunSummary>;
  abandon(runId: string): Promise<RunSummary>;
  /** The own guess of a finished run. @throws HostError 'conflict' where another one is kept, or the run cannot have one */
  noteGuess(request: ParsedRequest<'noteGuess'>): Promise<SpeedGuess>;
  /** How far a run is that is being cut again to be marked; null where none is. */
  marking(runId: string): Reply<'getMarking'>['marking'];
}

export interface RunsNeeds {
  db: RecordsDatabase;
  drills: Drills;
  people: People;
  shelf: RunShelf;
  spool: RunSpool;
  assignments: Pick<Assignments, 'attempt'>;
  core: CoreWorkers;
}

/** The life of a run: begin, append, finish or abandon. Calls about one run are answered in the order in which they came. */
export function createRuns({ db, drills, people, shelf, spool, assignments, core }: RunsNeeds): Runs {
  const queue = new RunQueue();
  const markings = new Map<string, { doneTicks: number; totalTicks: number }>();

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
    try {
      return await finishWhole(request, run);
    } catch (error) {
      // A disk that is full refuses this too; silence or the next start then settles it.
      await spool.leaveUnfinished(request.runId).catch(() => undefined);
      throw error;
    }
  }

  async function finishWhole(request: ParsedRequest<'finishRun'>, run: RunSummary): Promise<RunSummary> {
    readTrace(request.trace);
    const log = await joinSpool(db, request.runId);
    const impossible = impossibleMotion(log);
    if (impossible) throw new HostError('conflict', `This run is not taken. ${impossibleMotionSentence(impossible)}`);
    const inputs = encodeHandLog(log);
    const result = await resultOf(request, inputs);
    const endedAt = new Date().toISOString();
    await db.transaction().execute(async (step) => {
      await step
        .updateTable('runs')
        .set({
          state: 'finished',
          ended_at: endedAt,
          final_digest: result.finalDigest,
          score: result.score.score,
          passed: result.score.passed ? 1 : 0,
          diagnosis: request.diagnosis === null ? null : JSON.stringify(request.diagnosis),
          trace_hz: result.trace.hz,
          used: request.used === null ? null : JSON.stringify(request.used),
          // Marked here, it is of this core, though it may have been begun before an update.
          ...(result === request ? {} : { core_version: CORE_VERSION }),
        })
        .where('id', '=', request.runId)
        .execute();
      const contents = {
        inputs,
        digests: JSON.stringify(result.digests),
        score_record: JSON.stringify(result.score),
        trace_fields: JSON.stringify(result.trace.fields),
        trace_columns: readTrace(result.trace),
      };
      await step
        .insertInto('run_contents')
        .values({ run_id: request.runId, ...contents })
        .execute();
      const marks = await keepMarks(step, request.runId);
      if (run.personId !== null && (await people.get(run.personId, step)).role === 'apprentice') {
        const { score, passed } = result.score;
        const { technique, material } = await step
          .selectFrom('drill_versions')
          .select(['technique', 'material'])
          .where('hash', '=', run.drillHash)
          .executeTakeFirstOrThrow();
        const { personId, drillId } = run;
        await addToPractice(step, { personId, drillId, technique, material, endedAt, score, passed, marks, used: request.used });
      }
      await step.deleteFrom('run_spool').where('run_id', '=', request.runId).execute();
    });
    spool.close(request.runId);
    return await shelf.summary(request.runId);
  }

  /** What the page says came of it; of an assessment, what the host makes of its inputs. */
  async function resultOf(request: ParsedRequest<'finishRun'>, inputs: Uint8Array): Promise<MarkedRun | typeof request> {
    const row = await db
      .selectFrom('runs')
      .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
      .select(['runs.sealed', 'runs.seed', 'runs.choices', 'drill_versions.text'])
      .where('runs.id', '=', request.runId)
      .executeTakeFirstOrThrow();
    if (row.sealed === 0) return request;
    const choices = row.choices === null ? null : (JSON.parse(row.choices) as RigChoices);
    const run = { drillText: row.text, seed: row.seed, inputs, choices, diagnosis: request.diagnosis };
    const marking = { doneTicks: 0, totalTicks: request.tickCount };
    markings.set(request.runId, marking);
    try {
      return await core.run('markAgain', run, {
        mustEnd: true,
        onTicks: (ticks) => Object.assign(marking, { doneTicks: Math.min(ticks, marking.totalTicks) }),
      });
    } finally {
      markings.delete(request.runId);
    }
  }

  /** The page may ask again when the first answer was lost; only another result is a conflict. */
  async function finishedBefore(request: ParsedRequest<'finishRun'>, run: RunSummary): Promise<RunSummary> {
    const row = await db.selectFrom('runs').select('final_digest').where('id', '=', run.id).executeTakeFirstOrThrow();
    if ((run.assessment?.sealed || row.final_digest === request.finalDigest) && run.tickCount === request.tickCount) return run;
    throw new HostError('conflict', 'This run is finished already with another result.');
  }

  return {
    async begin(request, { rolesBind, withDrafts }) {
      if (request.coreVersion !== CORE_VERSION)
        throw new HostError(
          'conflict',
          `This page is of another version than the program behind it, which has core ${CORE_VERSION}: load the page again, then begin.`,
        );
      if (request.personId !== null) await people.get(request.personId);
      await spool.markSilent();
      const runId = randomUUID();
      const assigned = await assignments.attempt(request);
      const { hash, text } = await drills.keepForRun(request.drillId, assigned?.drillHash ?? request.drillHash, withDrafts);
      const sealed = rolesBind && (assigned?.sealed || isAssessment(readDrillText(text).drill));
      await db.transaction().execute(async (step) => {
        await assigned?.mustBeLeft(step);
        await step
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
            core_version: CORE_VERSION,
            choices: request.choices === null ? null : JSON.stringify(request.choices),
            hand_scale: request.handScale === null ? null : JSON.stringify(request.handScale),
            began_at: new Date().toISOString(),
            assignment_id: request.assignmentId,
            sealed: sealed ? 1 : 0,
          })
          .execute();
      });
      spool.begin(runId);
      return { runId, drillHash: hash, drillText: text };
    },
    marking: (runId) => markings.get(runId) ?? null,
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
    noteGuess: ({ runId, guess }) =>
      queue.inOrder(runId, async () => {
        const run = await shelf.summary(runId);
        if (run.state !== 'finished' || run.source !== 'here')
          throw new HostError('conflict', 'A guess belongs to a run that was cut here and is finished.');
        const row = await db.selectFrom('runs').select('speed_guess').where('id', '=', runId).executeTakeFirstOrThrow();
        // The answer may have been lost and the same be sent again; another guess would come after the marks.
        if (row.speed_guess !== null && row.speed_guess !== guess)
          throw new HostError('conflict', 'The guess of this run is kept already.');
        await db.updateTable('runs').set({ speed_guess: guess }).where('id', '=', runId).execute();
        return guess;
      }),
  };
}

/** @throws HostError 'bad-request' where the columns are not of one length */
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
