import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import type { Person } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import type { SettingsStore } from './settings-store.ts';

type Role = Person['role'];
const ROLE_WORDS: Record<Role, string> = { apprentice: 'Apprentice', instructor: 'Instructor', assessor: 'Assessor' };

/** 'Apprentice 01'. People are numbers here: no real name enters the records. */
export function personName(role: string, number: number): string {
  return `${ROLE_WORDS[role as Role] ?? role} ${String(number).padStart(2, '0')}`;
}

export interface People {
  list(): Promise<{ people: Person[]; chosenId: string | null }>;
  /** @param by the person who is signed in, null in an open yard */
  create(role: Role, by: string | null): Promise<Person>;
  choose(personId: string | null): Promise<{ personId: string | null }>;
  chosenId(): Promise<string | null>;
  /** @throws HostError 'not-found' */
  get(personId: string, step?: RecordsDatabase): Promise<Person>;
  /** The next free number of a role. */
  add(role: Role, step: RecordsDatabase): Promise<Person>;
  /** The lowest number of a role, null where there is none. */
  firstOf(role: Role, step: RecordsDatabase): Promise<Person | null>;
}

export function createPeople(db: RecordsDatabase, settings: SettingsStore, ledger: Ledger): People {
  async function get(personId: string, step = db): Promise<Person> {
    const row = await step.selectFrom('people').selectAll().where('id', '=', personId).executeTakeFirst();
    if (!row) throw new HostError('not-found', `There is no person ${personId} in these records.`);
    return personOfRow(row);
  }

  async function add(role: Role, step: RecordsDatabase): Promise<Person> {
    const { next } = await step
      .selectFrom('people')
      .select(sql<number>`coalesce(max(number), 0) + 1`.as('next'))
      .where('role', '=', role)
      .executeTakeFirstOrThrow();
    const row = { id: randomUUID(), role, number: next, created_at: new Date().toISOString() };
    await step.insertInto('people').values(row).execute();
    return personOfRow(row);
  }

  async function chosenId(): Promise<string | null> {
    const value = await settings.read('chosen-person');
    return typeof value === 'string' ? value : null;
  }

  return {
    get,
    add,
    chosenId,
    async firstOf(role, step) {
      const row = await step.selectFrom('people').selectAll().where('role', '=', role).orderBy('number').executeTakeFirst();
      return row ? personOfRow(row) : null;
    },
    async list() {
      const rows = await db.selectFrom('people').selectAll().orderBy('role').orderBy('number').execute();
      return { people: rows.map(personOfRow), chosenId: await chosenId() };
    },
    async create(role, by) {
      const person = await db.transaction().execute(async (step) => {
        const made = await add(role, step);
        const body = { change: 'person-added', name: made.name };
        await ledger.add(step, { who: by, kind: 'role-change', subject: made.id, body });
        return made;
      });
      await ledger.settle();
      return person;
    },
    async choose(personId) {
      if (personId !== null) await get(personId);
      await settings.write('chosen-person', personId);
      return { personId };
    },
  };
}

function personOfRow({ id, role, number, created_at }: RecordsTables['people']): Person {
  return { id, role: role as Role, number, name: personName(role, number), createdAt: created_at };
}
