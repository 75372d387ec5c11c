import type { PersonRole } from '../../electron/contract.ts';
import { say } from '../text/say.ts';

/** Words of the host for a role, as they begin what it calls somebody. */
const ROLES: Readonly<Record<string, PersonRole>> = { Apprentice: 'apprentice', Instructor: 'instructor', Assessor: 'assessor' };

/** What the host calls somebody ("Apprentice 04"), in the language of the page; anything else as it is. */
export function personText(name: string): string {
  const [, word = '', number] = /^([A-Z][a-z]+) (\d+)$/.exec(name) ?? [];
  const role = ROLES[word];
  return role === undefined ? name : `${say(`role.${role}`)} ${number}`;
}
