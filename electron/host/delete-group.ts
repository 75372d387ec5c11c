import type { Reply } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase } from './records-tables.ts';

/**
 * Takes a group out, within a transaction of the caller's, who settles the ledger after it. What was assigned to it alone is
 * withdrawn, for nobody would be asked for it any more; the members of now stand in its place there, so that the list still tells
 * whom it was for.
 * @throws HostError 'not-found'
 */
export async function deleteGroup(
  step: RecordsDatabase,
  ledger: Ledger,
  groupId: string,
  by: string,
): Promise<Reply<'deleteGroup'>> {
  const group = await step.selectFrom('groups').select('name').where('id', '=', groupId).executeTakeFirst();
  if (!group) throw new HostError('not-found', `There is no group ${groupId} in these records.`);
  const { name } = group;
  const rows = await step.selectFrom('group_members').select('person_id').where('group_id', '=', groupId).execute();
  const members = rows.map((row) => row.person_id);
  const assignments = await step
    .selectFrom('assignment_targets')
    .innerJoin('assignments', 'assignments.id', 'assignment_targets.assignment_id')
    .select(['assignments.id', 'assignments.withdrawn_at'])
    .where('assignment_targets.group_id', '=', groupId)
    .orderBy('assignments.created_at')
    .orderBy('assignments.id')
    .execute();
  const withdrawn: string[] = [];
  const stayForOthers: string[] = [];
  for (const { id, withdrawn_at } of assignments) {
    const others = await othersOf(step, id, groupId);
    if (withdrawn_at === null && (others.people.length > 0 || others.groups > 0)) {
      stayForOthers.push(id);
      continue;
    }
    if (withdrawn_at === null) {
      const now = new Date().toISOString();
      await step.updateTable('assignments').set({ withdrawn_at: now }).where('id', '=', id).execute();
      const body = { change: 'withdrawn', because: 'group-deleted', groupId };
      await ledger.add(step, { who: by, kind: 'assignment', subject: id, body });
      withdrawn.push(id);
    }
    const toName = members.filter((member) => !others.people.includes(member));
    if (toName.length > 0) {
      await step
        .insertInto('assignment_targets')
        .values(toName.map((person_id) => ({ assignment_id: id, person_id, group_id: null })))
        .execute();
    }
  }
  await step.deleteFrom('assignment_targets').where('group_id', '=', groupId).execute();
  await step.deleteFrom('groups').where('id', '=', groupId).execute();
  const body = { change: 'deleted', name, members, withdrawn, stayForOthers };
  await ledger.add(step, { who: by, kind: 'group', subject: groupId, body });
  return { withdrawn, stayForOthers };
}

/** Whom an assignment is for beside that group. */
async function othersOf(step: RecordsDatabase, assignmentId: string, groupId: string) {
  const targets = await step.selectFrom('assignment_targets').selectAll().where('assignment_id', '=', assignmentId).execute();
  return {
    people: targets.flatMap((target) => target.person_id ?? []),
    groups: targets.filter((target) => target.group_id !== null && target.group_id !== groupId).length,
  };
}
