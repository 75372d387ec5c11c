import { randomUUID } from 'node:crypto';
import { MOST_PEOPLE } from '../contract/yard.ts';
import type { Reply } from '../contract.ts';
import { composedName, groupIdsByName } from './group-names.ts';
import type { HandOutFile } from './hand-out-file.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import { previewRoster, type RosterPerson, rosterChanges, rosterCsv } from './papers/roster.ts';
import type { RecordsDatabase } from './records-tables.ts';

export interface RosterExchange {
  /** @throws HostError 'bad-file', 'too-large' */
  preview(text: string): Promise<Reply<'previewRoster'>>;
  /** @throws HostError as `preview`, also 'too-large' where a group would have too many members */
  import(text: string, by: string): Promise<Reply<'importRoster'>>;
  export(): Promise<Reply<'exportRoster'>>;
}

/** People and their groups out to CSV and in from it. */
export function createRosterExchange(db: RecordsDatabase, ledger: Ledger, handOut: HandOutFile): RosterExchange {
  return {
    preview: async (text) => previewRoster(text, await rosterOf(db)),
    async import(text, by) {
      const counts = await db.transaction().execute(async (step) => {
        // Looked at again inside: the yard may have changed since the preview.
        const preview = previewRoster(text, await rosterOf(step));
        const changes = rosterChanges(preview);
        const groupIds = await groupIdsByName(step);
        for (const person of changes) await putInGroups(step, person, groupIds);
        await mustHoldGroups(step);
        if (changes.length > 0) await ledger.add(step, { who: by, kind: 'import', subject: 'roster', body: { changes } });
        return preview.counts;
      });
      await ledger.settle();
      return counts;
    },
    export: async () => handOut('roster.csv', rosterCsv(await rosterOf(db))),
  };
}

async function rosterOf(db: RecordsDatabase): Promise<RosterPerson[]> {
  const people = await db.selectFrom('people').select(['id', 'role', 'number']).execute();
  const members = await db
    .selectFrom('group_members')
    .innerJoin('groups', 'groups.id', 'group_members.group_id')
    .select(['group_members.person_id', 'groups.name'])
    .orderBy('groups.name')
    .execute();
  const groupsOf = Map.groupBy(members, (member) => member.person_id);
  return people.map(({ id, role, number }) => ({
    role: role as RosterPerson['role'],
    number,
    groups: [...new Set((groupsOf.get(id) ?? []).map((member) => composedName(member.name)))],
  }));
}

/** Makes the person and groups where they are missing, and puts the person into just these groups; one that is made is added to `groupIds`. */
async function putInGroups(
  step: RecordsDatabase,
  { role, number, groups }: RosterPerson,
  groupIds: Map<string, string>,
): Promise<void> {
  const created_at = new Date().toISOString();
  const person = { id: randomUUID(), role, number, created_at };
  await step
    .insertInto('people')
    .values(person)
    .onConflict((conflict) => conflict.columns(['role', 'number']).doNothing())
    .execute();
  const { id: person_id } = await step
    .selectFrom('people')
    .select('id')
    .where('role', '=', role)
    .where('number', '=', number)
    .executeTakeFirstOrThrow();
  await step.deleteFrom('group_members').where('person_id', '=', person_id).execute();
  for (const name of groups) {
    const group_id = groupIds.get(name) ?? randomUUID();
    if (!groupIds.has(name)) {
      await step.insertInto('groups').values({ id: group_id, name, created_at }).execute();
      groupIds.set(name, group_id);
    }
    await step.insertInto('group_members').values({ group_id, person_id }).execute();
  }
}

async function mustHoldGroups(step: RecordsDatabase): Promise<void> {
  const tooLarge = await step
    .selectFrom('group_members')
    .innerJoin('groups', 'groups.id', 'group_members.group_id')
    .select(['groups.name', (one) => one.fn.countAll<number>().as('members')])
    .groupBy('groups.id')
    .having((one) => one.fn.countAll(), '>', MOST_PEOPLE)
    .executeTakeFirst();
  if (!tooLarge) return;
  const { name, members } = tooLarge;
  throw new HostError(
    'too-large',
    `The group ${JSON.stringify(name)} would have ${members} members; a group has at most ${MOST_PEOPLE}. Nothing was taken in.`,
  );
}
