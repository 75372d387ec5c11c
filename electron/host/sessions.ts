import type { ParsedRequest, Person, WhoAmI } from '../contract.ts';
import { type Caller, type Connection, signedIn } from './caller.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import type { Passphrases } from './passphrases.ts';
import type { People } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import type { SettingsStore } from './settings-store.ts';
import type { SigningKeys } from './signing-keys.ts';

const MINUTE_MS = 60_000;

export interface Sessions {
  /** Notes a call, and signs out whoever has done nothing for too long. To be called before `caller`. */
  note(connection: Connection, isAction: boolean): Promise<void>;
  /** Who speaks on a connection, now. */
  caller(connection: Connection): Caller;
  whoAmI(caller: Caller): Promise<WhoAmI>;
  makeFirstInstructor(request: ParsedRequest<'makeFirstInstructor'>, connection: Connection): Promise<WhoAmI>;
  signIn(request: ParsedRequest<'signIn'>, connection: Connection): Promise<WhoAmI>;
  signOut(connection: Connection): Promise<WhoAmI>;
  setPassphrase(request: ParsedRequest<'setPassphrase'>, caller: Caller): Promise<Record<string, never>>;
  /** Who practises: in an open yard whoever was chosen last, then whoever is signed in. */
  practising(caller: Caller): Promise<string | null>;
  choose(personId: string | null, caller: Caller): Promise<{ personId: string | null }>;
}

export interface SessionsNeeds {
  db: RecordsDatabase;
  people: People;
  passphrases: Passphrases;
  ledger: Ledger;
  keys: SigningKeys;
  settings: SettingsStore;
  /** Time of day, ms since 1970. */
  nowMs?: (() => number) | undefined;
}

/** Signing in and out. Who is signed in is known to the running program only: a restart signs everybody out. */
export async function createSessions(needs: SessionsNeeds): Promise<Sessions> {
  const { db, people, passphrases, ledger, keys, settings, nowMs = Date.now } = needs;
  let rolesBind = (await passphrases.holders()).length > 0;
  const caller = (connection: Connection): Caller => ({ connection, person: connection.person, rolesBind });

  async function whoAmI({ connection }: Caller): Promise<WhoAmI> {
    const { person, idle } = connection;
    return { person, rolesBind, withPassphrase: await passphrases.holders(), signedOutIdle: idle?.person ?? null };
  }

  /** Somebody else, or nobody, is at the page from now on. */
  function seat(connection: Connection, person: Person | null): void {
    connection.person = person;
    connection.idle = null;
    connection.lastActionMs = nowMs();
  }

  async function note(connection: Connection, isAction: boolean): Promise<void> {
    const now = nowMs();
    // A clock that was set back must not keep anybody signed in until it has caught up.
    connection.lastActionMs = Math.min(connection.lastActionMs, now);
    const { person, lastActionMs } = connection;
    if (person && person.role !== 'apprentice' && now - lastActionMs > MINUTE_MS) {
      const { idleSignOutMinutes: minutes } = await settings.get();
      if (now - lastActionMs > minutes * MINUTE_MS && connection.person === person) {
        connection.person = null;
        connection.idle = { person, minutes };
        return;
      }
    }
    if (isAction) connection.lastActionMs = now;
  }

  async function makeFirst(personId: string | null, passphrase: string, connection: Connection): Promise<WhoAmI> {
    const hash = await passphrases.hash(passphrase);
    const person = await db.transaction().execute(async (step) => {
      // Looked up again inside: two first instructors at once would lock each other out.
      if (await step.selectFrom('passphrases').select('person_id').executeTakeFirst())
        throw new HostError('conflict', 'This yard has its first instructor already; sign in instead.');
      const known = personId === null ? await people.firstOf('instructor', step) : await people.get(personId, step);
      const first = known ?? (await people.add('instructor', step));
      if (first.role !== 'instructor')
        throw new HostError('conflict', `${first.name} is no instructor; the first passphrase belongs to an instructor.`);
      await passphrases.keep(step, first.id, hash);
      await ledger.add(step, {
        who: first.id,
        kind: 'role-change',
        subject: first.id,
        body: { change: 'first-instructor', name: first.name },
      });
      return first;
    });
    await ledger.settle();
    rolesBind = true;
    seat(connection, person);
    return await whoAmI(caller(connection));
  }

  async function signIn(request: ParsedRequest<'signIn'>, connection: Connection): Promise<WhoAmI> {
    const person = await people.get(request.personId);
    if (person.role !== 'apprentice') await mustProve(person, request.passphrase);
    seat(connection, person);
    return await whoAmI(caller(connection));
  }

  async function mustProve(person: Person, passphrase: string | null): Promise<void> {
    if (!rolesBind) throw new HostError('conflict', 'No passphrase is set in this yard yet; make the first instructor first.');
    if (passphrase === null) throw new HostError('wrong-passphrase', `${person.name} signs in with a passphrase.`);
    await passphrases.mustFit(person.id, passphrase);
  }

  return {
    note,
    caller,
    whoAmI,
    signIn,
    makeFirstInstructor: ({ personId, passphrase }, connection) => makeFirst(personId, passphrase, connection),
    async signOut(connection) {
      seat(connection, null);
      return await whoAmI(caller(connection));
    },
    async setPassphrase({ personId, passphrase, current }, by) {
      const me = signedIn(by);
      const person = await people.get(personId);
      if (person.role === 'apprentice')
        throw new HostError('conflict', `${person.name} needs no passphrase: apprentices pick their number.`);
      const own = me.id === person.id;
      if (!own && me.role !== 'instructor')
        throw new HostError('forbidden', 'Only an instructor gives somebody else a passphrase.');
      const hash = await passphrases.hash(passphrase);
      await keys.inOrder(person.id, async () => {
        if (own) await mustProve(person, current);
        const sealed = own && current !== null ? await keys.reseal(person.id, current, passphrase) : null;
        await db.transaction().execute(async (step) => {
          await passphrases.keep(step, person.id, hash);
          await keys.replace(step, person.id, sealed);
          const body = { change: own ? 'passphrase-changed' : 'passphrase-given', name: person.name };
          await ledger.add(step, { who: me.id, kind: 'role-change', subject: person.id, body });
        });
      });
      await ledger.settle();
      return {};
    },
    practising: async (by) => (rolesBind ? (by.person?.id ?? null) : await people.chosenId()),
    async choose(personId, by) {
      if (!rolesBind) return await people.choose(personId);
      if (personId === by.person?.id) return { personId };
      if (personId === null) seat(by.connection, null);
      else await signIn({ personId, passphrase: null }, by.connection);
      return { personId };
    },
  };
}
