import { CALL_RULES } from '../contract/call-roles.ts';
import type { Person, PersonRole, Verb } from '../contract.ts';
import { HostError } from './host-error.ts';

/** One page that talks to the host, for as long as it does: who is signed in there, and the runs that were begun there. */
export interface Connection {
  person: Person | null;
  readonly begunRuns: Set<string>;
  /** When something was done here last, ms. */
  lastActionMs: number;
  /** Who was signed out here for want of it, and after how long; null once anybody signs in or out. */
  idle: { person: Person; minutes: number } | null;
}

export function newConnection(): Connection {
  return { person: null, begunRuns: new Set(), lastActionMs: 0, idle: null };
}

/** Who makes a call. */
export interface Caller {
  connection: Connection;
  person: Person | null;
  /** False before the yard's first passphrase is set. */
  rolesBind: boolean;
}

const ROLE_PLURALS: Record<PersonRole, string> = { apprentice: 'apprentices', instructor: 'instructors', assessor: 'assessors' };

/** @throws HostError 'forbidden' where the table of the contract does not let this caller make this call */
export function mustBeAllowed(verb: Verb, caller: Caller): void {
  const { roles, openYard } = CALL_RULES[verb];
  if (!caller.rolesBind) {
    if (openYard === 'anyone') return;
    throw new HostError('forbidden', `The call ${verb} needs somebody signed in; make the first instructor first.`);
  }
  if (roles === 'anyone' || (caller.person && roles.includes(caller.person.role))) return;
  const { idle } = caller.connection;
  if (idle && !caller.person)
    throw new HostError(
      'forbidden',
      `${idle.person.name} was signed out, because nothing had been done for ${idle.minutes} minutes. Sign in again; what stands on the page is still there.`,
    );
  const who = roles.map((role) => ROLE_PLURALS[role]).join(' and ');
  throw new HostError('forbidden', `The call ${verb} is for ${who} only; ${caller.person?.name ?? 'nobody'} is signed in.`);
}

/** Whether the caller may see and do what belongs to others: instructors, assessors, and everybody while no role binds. */
export function isStaff(caller: Caller): boolean {
  return !caller.rolesBind || (caller.person !== null && caller.person.role !== 'apprentice');
}

/** The person who is signed in. @throws HostError 'forbidden' where nobody is */
export function signedIn(caller: Caller): Person {
  if (caller.person) return caller.person;
  throw new HostError('forbidden', 'Nobody is signed in; sign in first.');
}

/** @throws HostError 'forbidden' where what belongs to `personId` is not for the caller to see */
export function mustBeOwn(caller: Caller, personId: string | null, what: string): void {
  if (isStaff(caller) || (personId !== null && personId === caller.person?.id)) return;
  throw new HostError('forbidden', `${what} of somebody else ${what.endsWith('s') ? 'are' : 'is'} not shown to apprentices.`);
}
