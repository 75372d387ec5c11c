import type { ParsedRequest, Reply, RunSummary } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import { personName } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { type RunShelf, SUMMARY_COLUMNS, summaryOfRow } from './run-shelf.ts';

export interface ReviewQueue {
  /** @throws HostError 'conflict' where it is not finished, or one is waiting or decided well already */
  submit(runId: string, by: string | null): Promise<RunSummary>;
  /** Why a run is not taken, in a sentence; null where it is. */
  whyNot(runId: string): Promise<string | null>;
  list(request: ParsedRequest<'listQueue'>): Promise<Reply<'listQueue'>>;
}

/** Runs that were handed in for a decision. */
export function createReviewQueue(db: RecordsDatabase, shelf: RunShelf, ledger: Ledger): ReviewQueue {
  async function obstacle(run: RunSummary, step: RecordsDatabase): Promise<string | null> {
    if (run.state !== 'finished') return 'Only a finished run can be handed in.';
    if (run.personId === null) return 'A run without a person cannot be handed in.';
    const assignmentId = run.assessment?.assignmentId ?? null;
    if (assignmentId !== null) {
      const { title, withdrawn_at } = await step
        .selectFrom('assignments')
        .select(['title', 'withdrawn_at'])
        .where('id', '=', assignmentId)
        .executeTakeFirstOrThrow();
      if (withdrawn_at !== null) return `The assignment "${title}" was withdrawn: nobody waits for this run.`;
    }
    let rivals = step
      .selectFrom('runs')
      .select('decision')
      .where('person_id', '=', run.personId)
      .where('drill_hash', '=', run.drillHash)
      .where('submitted_at', 'is not', null)
      .where((one) => one.or([one('decision', 'is', null), one('decision', '=', 'competent')]));
    rivals = assignmentId === null ? rivals.where('assignment_id', 'is', null) : rivals.where('assignment_id', '=', assignmentId);
    const rival = await rivals.executeTakeFirst();
    if (!rival) return null;
    return rival.decision === null
      ? 'Another run of this drill is waiting for its decision.'
      : 'Another run of this drill was found competent already.';
  }

  return {
    async submit(runId, by) {
      const run = await shelf.summary(runId);
      await db.transaction().execute(async (step) => {
        // All of it is looked at in here: another run of the drill, or this one twice, may be handed in at the same time.
        const { submitted_at, final_digest } = await step
          .selectFrom('runs')
          .select(['submitted_at', 'final_digest'])
          .where('id', '=', runId)
          .executeTakeFirstOrThrow();
        if (submitted_at !== null) return;
        const reason = await obstacle(run, step);
        if (reason !== null) throw new HostError('conflict', reason);
        await step.updateTable('runs').set({ submitted_at: new Date().toISOString() }).where('id', '=', runId).execute();
        const body = { drillId: run.drillId, drillHash: run.drillHash, finalDigest: final_digest, score: run.score };
        await ledger.add(step, { who: by, kind: 'run-submitted', subject: runId, body });
      });
      await ledger.settle();
      return await shelf.summary(runId);
    },
    async whyNot(runId) {
      const run = await shelf.summary(runId);
      return run.assessment?.submittedAt ? 'This run is handed in already.' : await obstacle(run, db);
    },
    async list(request) {
      let matching = db
        .selectFrom('runs')
        .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
        .leftJoin('people', 'people.id', 'runs.person_id')
        .where('runs.submitted_at', 'is not', null);
      if (request.state === 'waiting') matching = matching.where('runs.decided_at', 'is', null);
      if (request.state === 'decided') matching = matching.where('runs.decided_at', 'is not', null);
      if (request.drillId !== undefined) matching = matching.where('drill_versions.drill_id', '=', request.drillId);
      if (request.personId !== undefined) matching = matching.where('runs.person_id', '=', request.personId);
      if (request.measureId !== undefined) matching = matching.where('runs.weakest_measure', '=', request.measureId);
      const { groupId } = request;
      if (groupId !== undefined) {
        matching = matching.where('runs.person_id', 'in', (inner) =>
          inner.selectFrom('group_members').select('person_id').where('group_id', '=', groupId),
        );
      }
      const { total } = await matching.select((count) => count.fn.countAll<number>().as('total')).executeTakeFirstOrThrow();
      const rows = await matching
        .leftJoin('people as assessors', 'assessors.id', 'runs.decided_by')
        .select(SUMMARY_COLUMNS)
        .select(['runs.weakest_measure', 'assessors.role as assessor_role', 'assessors.number as assessor_number'])
        .orderBy('runs.submitted_at')
        .orderBy('runs.id')
        .limit(request.limit)
        .offset(request.offset)
        .execute();
      return {
        total: Number(total),
        rows: rows.map((row) => ({
          run: summaryOfRow(row),
          weakestMeasure: row.weakest_measure,
          decidedBy:
            row.assessor_role === null || row.assessor_number === null
              ? null
              : personName(row.assessor_role, row.assessor_number),
        })),
      };
    },
  };
}
