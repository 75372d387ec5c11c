import { randomUUID } from 'node:crypto';
import type { Group, ParsedRequest, Reply } from '../contract.ts';
import { deleteGroup } from './delete-group.ts';
import { composedName } from './group-names.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase } from './records-tables.ts';

export interface Groups {
  list(): Promise<Group[]>;
  /** @throws HostError 'not-found' (group, person), 'conflict' (the name is taken) */
  save(request: ParsedRequest<'saveGroup'>, by: string): Promise<Group>;
  /** @throws HostError 'not-found' */
  delete(groupId: string, by: string): Promise<Reply<'deleteGroup'>>;
}

/** Named groups of people. A person may be in several. */
export function createGroups(db: RecordsDatabase, ledger: Ledger): Groups {
  return {
    async list() {
      const groups = await db.selectFrom('groups').select(['id', 'name']).orderBy('name').execute();
      const members = await db
        .selectFrom('group_members')
        .innerJoin('people', 'people.id', 'group_members.person_id')
        .select(['group_members.group_id', 'group_members.person_id'])
        .orderBy('people.role')
        .orderBy('people.number')
        .execute();
      const byGroup = Map.groupBy(members, (member) => member.group_id);
      return groups.map(({ id, name }) => ({ id, name, memberIds: (byGroup.get(id) ?? []).map((member) => member.person_id) }));
    },
    async save({ groupId, name, memberIds }, by) {
      const group = await db.transaction().execute((step) => saveGroup(step, ledger, { groupId, name, memberIds, by }));
      await ledger.settle();
      return group;
    },
    async delete(groupId, by) {
      const outcome = await db.transaction().execute((step) => deleteGroup(step, ledger, groupId, by));
      await ledger.settle();
      return outcome;
    },
  };
}

/** The same within a transaction of the caller's, who settles the ledger after it. */
export async function saveGroup(
  step: RecordsDatabase,
  ledger: Ledger,
  { groupId, name: typed, memberIds, by }: { groupId: string | null; name: string; memberIds: readonly string[]; by: string },
): Promise<Group> {
  const id = groupId ?? randomUUID();
  const name = composedName(typed);
  const others = await step.selectFrom('groups').select('name').where('id', '!=', id).execute();
  if (others.some((other) => composedName(other.name) === name))
    throw new HostError('conflict', `There is a group named ${JSON.stringify(name)} already.`);
  if (groupId === null) {
    await step.insertInto('groups').values({ id, name, created_at: new Date().toISOString() }).execute();
  } else {
    const { numUpdatedRows } = await step.updateTable('groups').set({ name }).where('id', '=', id).executeTakeFirst();
    if (numUpdatedRows === 0n) throw new HostError('not-found', `There is no group ${id} in these records.`);
    await step.deleteFrom('group_members').where('group_id', '=', id).execute();
  }
  const members = [...new Set(memberIds)];
  if (members.length > 0) {
    const known = await step.selectFrom('people').select('id').where('id', 'in', members).execute();
    if (known.length < members.length) {
      const missing = members.find((member) => !known.some((person) => person.id === member));
      throw new HostError('not-found', `There is no person ${missing} in these records.`);
    }
    await step
      .insertInto('group_members')
      .values(members.map((person_id) => ({ group_id: id, person_id })))
      .execute();
  }
  const change = groupId === null ? 'made' : 'changed';
  await ledger.add(step, { who: by, kind: 'group', subject: id, body: { change, name, members } });
  return { id, name, memberIds: members };
}
