import { randomUUID } from 'node:crypto';
import type { Assignment, ParsedRequest } from '../contract.ts';
import { readDrillText } from './drill-text.ts';
import type { Drills } from './drills.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import { isAssessment } from './sealed-assessment.ts';

export interface Assignments {
  assign(request: ParsedRequest<'assign'>, by: string): Promise<Assignment>;
  list(): Promise<Assignment[]>;
  withdraw(assignmentId: string, by: string): Promise<Assignment>;
  /**
   * What a run that is about to begin has to hold to; null where it is no attempt of an assignment.
   * @throws HostError 'not-found', 'conflict' (withdrawn, not for this person or drill)
   */
  attempt(request: ParsedRequest<'beginRun'>): Promise<Attempt | null>;
}

export interface Attempt {
  drillHash: string;
  sealed: boolean;
  /** Counted within the transaction that begins the run: two at once do not share one attempt. @throws HostError 'conflict' */
  mustBeLeft(step: RecordsDatabase): Promise<void>;
}

export function createAssignments(db: RecordsDatabase, drills: Drills, ledger: Ledger): Assignments {
  async function read(ids: readonly string[] | null): Promise<Assignment[]> {
    let rows = db.selectFrom('assignments').selectAll().orderBy('created_at', 'desc').orderBy('id');
    if (ids) rows = rows.where('id', 'in', ids);
    const assigned = await db
      .selectFrom('assignment_drills')
      .innerJoin('drill_versions', 'drill_versions.hash', 'assignment_drills.drill_hash')
      .select(['assignment_id', 'drill_hash', 'drill_id', 'title'])
      .orderBy('assignment_id')
      .orderBy('position')
      .execute();
    const targets = await db.selectFrom('assignment_targets').selectAll().execute();
    const drillsOf = Map.groupBy(assigned, (drill) => drill.assignment_id);
    const targetsOf = Map.groupBy(targets, (target) => target.assignment_id);
    return (await rows.execute()).map((row) => ({
      id: row.id,
      title: row.title,
      drills: (drillsOf.get(row.id) ?? []).map((one) => ({ drillId: one.drill_id, drillHash: one.drill_hash, title: one.title })),
      personIds: (targetsOf.get(row.id) ?? []).flatMap((target) => target.person_id ?? []),
      groupIds: (targetsOf.get(row.id) ?? []).flatMap((target) => target.group_id ?? []),
      dueAt: row.due_at,
      attempts: row.attempts,
      cueLevel: row.cue_level as Assignment['cueLevel'],
      order: row.drill_order as Assignment['order'],
      createdBy: row.created_by,
      createdAt: row.created_at,
      withdrawnAt: row.withdrawn_at,
    }));
  }

  async function one(assignmentId: string): Promise<Assignment> {
    const [assignment] = await read([assignmentId]);
    if (!assignment) throw new HostError('not-found', `There is no assignment ${assignmentId} in these records.`);
    return assignment;
  }

  async function mustBeThere(personIds: readonly string[], groupIds: readonly string[]): Promise<void> {
    for (const [table, ids, what] of [
      ['people', personIds, 'person'],
      ['groups', groupIds, 'group'],
    ] as const) {
      if (ids.length === 0) continue;
      const known = new Set((await db.selectFrom(table).select('id').where('id', 'in', ids).execute()).map((row) => row.id));
      const missing = ids.find((id) => !known.has(id));
      if (missing) throw new HostError('not-found', `There is no ${what} ${missing} in these records.`);
    }
  }

  return {
    list: () => read(null),
    async assign(request, by) {
      const personIds = [...new Set(request.personIds)];
      const groupIds = [...new Set(request.groupIds)];
      if (personIds.length + groupIds.length === 0)
        throw new HostError('conflict', 'An assignment is for somebody: name a person or a group.');
      await mustBeThere(personIds, groupIds);
      const assignment_id = randomUUID();
      const assigned: RecordsTables['assignment_drills'][] = [];
      for (const [position, drillId] of [...new Set(request.drillIds)].entries()) {
        const { hash, text } = await drills.keepForRun(drillId, undefined, false);
        const { drill } = readDrillText(text);
        const sealed = request.cueLevel === 'none' || isAssessment(drill) ? 1 : 0;
        assigned.push({ assignment_id, position, drill_hash: hash, attempts: request.attempts ?? drill.attempts, sealed });
      }
      await db.transaction().execute(async (step) => {
        const row = {
          id: assignment_id,
          title: request.title,
          due_at: request.dueAt,
          attempts: request.attempts,
          cue_level: request.cueLevel,
          drill_order: request.order,
          created_by: by,
          created_at: new Date().toISOString(),
          withdrawn_at: null,
        };
        await step.insertInto('assignments').values(row).execute();
        await step.insertInto('assignment_drills').values(assigned).execute();
        const targets = [
          ...personIds.map((person_id) => ({ assignment_id, person_id, group_id: null })),
          ...groupIds.map((group_id) => ({ assignment_id, person_id: null, group_id })),
        ];
        await step.insertInto('assignment_targets').values(targets).execute();
        const body = { change: 'assigned', ...request, drillHashes: assigned.map((drill) => drill.drill_hash) };
        await ledger.add(step, { who: by, kind: 'assignment', subject: assignment_id, body });
      });
      await ledger.settle();
      return await one(assignment_id);
    },
    async withdraw(assignmentId, by) {
      const { withdrawnAt } = await one(assignmentId);
      if (withdrawnAt === null) {
        await db.transaction().execute(async (step) => {
          const withdrawn_at = new Date().toISOString();
          await step.updateTable('assignments').set({ withdrawn_at }).where('id', '=', assignmentId).execute();
          await ledger.add(step, { who: by, kind: 'assignment', subject: assignmentId, body: { change: 'withdrawn' } });
        });
        await ledger.settle();
      }
      return await one(assignmentId);
    },
    async attempt({ assignmentId, personId, drillId }) {
      if (assignmentId === null) return null;
      if (personId === null) throw new HostError('conflict', 'An assignment is worked on by somebody: sign in first.');
      const { title, withdrawnAt, groupIds, personIds } = await one(assignmentId);
      if (withdrawnAt !== null) throw new HostError('conflict', `The assignment "${title}" was withdrawn.`);
      if (!personIds.includes(personId) && !(await isInGroup(db, personId, groupIds)))
        throw new HostError('conflict', `The assignment "${title}" is for somebody else.`);
      const drill = await db
        .selectFrom('assignment_drills')
        .innerJoin('drill_versions', 'drill_versions.hash', 'assignment_drills.drill_hash')
        .select(['drill_hash', 'attempts', 'sealed'])
        .where('assignment_id', '=', assignmentId)
        .where('drill_id', '=', drillId)
        .executeTakeFirst();
      if (!drill) throw new HostError('conflict', `The drill ${drillId} is not part of the assignment "${title}".`);
      return {
        drillHash: drill.drill_hash,
        sealed: drill.sealed === 1,
        async mustBeLeft(step) {
          const { used } = await step
            .selectFrom('runs')
            .select((count) => count.fn.countAll<number>().as('used'))
            .where('assignment_id', '=', assignmentId)
            .where('person_id', '=', personId)
            .where('drill_hash', '=', drill.drill_hash)
            .executeTakeFirstOrThrow();
          if (drill.attempts !== null && Number(used) >= drill.attempts)
            throw new HostError('conflict', `All ${drill.attempts} attempts at this drill of "${title}" are used.`);
        },
      };
    },
  };
}

async function isInGroup(db: RecordsDatabase, personId: string, groupIds: readonly string[]): Promise<boolean> {
  if (groupIds.length === 0) return false;
  const row = await db
    .selectFrom('group_members')
    .select('group_id')
    .where('person_id', '=', personId)
    .where('group_id', 'in', groupIds)
    .executeTakeFirst();
  return row !== undefined;
}
