import type { HostOptions } from '../../electron/host/host.ts';
import { openTestHost, type TestHost, type TestPage } from './open-test-host.ts';

export const PASSPHRASES = { instructor: 'slipway at low water', assessor: 'bollard and hawser' };

export interface YardWithRoles {
  host: TestHost;
  /** Each on a connection of its own, signed in. */
  instructor: TestPage;
  assessor: TestPage;
  apprentice: TestPage;
  otherApprentice: TestPage;
  nobody: TestPage;
  ids: { instructor: string; assessor: string; apprentice: string; otherApprentice: string };
}

/** A yard in which roles bind: one instructor, one assessor, two apprentices, and a page where nobody is signed in. */
export async function openYardWithRoles(options: Partial<HostOptions> = {}): Promise<YardWithRoles> {
  const host = await openTestHost(options);
  const [instructor, assessor, apprentice, otherApprentice, nobody] = Array.from({ length: 5 }, () => host.page());
  const { person } = await instructor.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor });
  const made = await instructor.ask('createPerson', { role: 'assessor' });
  await instructor.ask('setPassphrase', { personId: made.id, passphrase: PASSPHRASES.assessor });
  await assessor.ask('signIn', { personId: made.id, passphrase: PASSPHRASES.assessor });
  const first = await instructor.ask('createPerson', { role: 'apprentice' });
  const second = await instructor.ask('createPerson', { role: 'apprentice' });
  await apprentice.ask('signIn', { personId: first.id });
  await otherApprentice.ask('signIn', { personId: second.id });
  const ids = { instructor: person?.id ?? '', assessor: made.id, apprentice: first.id, otherApprentice: second.id };
  return { host, instructor, assessor, apprentice, otherApprentice, nobody, ids };
}
