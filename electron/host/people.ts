import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import type { Person } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { RecordsDatabase } from './records-tables.ts';
import type { SettingsStore } from './settings-store.ts';

type Role = Person['role'];
const ROLE_WORDS: Record<Role, string> = { apprentice: 'Apprentice', instructor: 'Instructor', assessor: 'Assessor' };

/** 'Apprentice 01'. People are numbers here: no real name enters the records. */
export function personName(role: string, number: number): string {
  return `${ROLE_WORDS[role as Role] ?? role} ${String(number).padStart(2, '0')}`;
}

export interface People {
  list(): Promise<{ people: Person[]; chosenId: string | null }>;
  create(role: Role): Promise<Person>;
  choose(personId: string | null): Promise<{ personId: string | null }>;
  chosenId(): Promise<string | null>;
  /** @throws HostError 'not-found' */
  mustExist(personId: string): Promise<void>;
}

export function createPeople(db: RecordsDatabase, settings: SettingsStore): People {
  async function mustExist(personId: string): Promise<void> {
    const row = await db.selectFrom('people').select('id').where('id', '=', personId).executeTakeFirst();
    if (!row) throw new HostError('not-found', `There is no person ${personId} in these records.`);
  }

  async function chosenId(): Promise<string | null> {
    const value = await settings.read('chosen-person');
    return typeof value === 'string' ? value : null;
  }

  return {
    mustExist,
    chosenId,
    async list() {
      const rows = await db.selectFrom('people').selectAll().orderBy('role').orderBy('number').execute();
      const people = rows.map((row) => ({
        id: row.id,
        role: row.role as Role,
        number: row.number,
        name: personName(row.role, row.number),
        createdAt: row.created_at,
      }));
      return { people, chosenId: await chosenId() };
    },
    async create(role) {
      return await db.transaction().execute(async (step) => {
        const { next } = await step
          .selectFrom('people')
          .select(sql<number>`coalesce(max(number), 0) + 1`.as('next'))
          .where('role', '=', role)
          .executeTakeFirstOrThrow();
        const row = { id: randomUUID(), role, number: next, created_at: new Date().toISOString() };
        await step.insertInto('people').values(row).execute();
        return { id: row.id, role, number: next, name: personName(role, next), createdAt: row.created_at };
      });
    },
    async choose(personId) {
      if (personId !== null) await mustExist(personId);
      await settings.write('chosen-person', personId);
      return { personId };
    },
  };
}
