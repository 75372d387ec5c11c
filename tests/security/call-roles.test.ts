// Every call of the contract against its table of roles, made from the contract itself: a new call is tried without a change here.
import { expect, test } from 'vitest';
import { CALL_RULES } from '../../electron/contract/call-roles.ts';
import { PERSON_ROLES, VERB_NAMES, type Verb } from '../../electron/contract.ts';
import { openTestHost } from '../host/open-test-host.ts';
import { openYardWithRoles } from '../host/yard-with-roles.ts';
import { sampleRequest } from './sample-request.ts';

/** These change who is signed in, on the very connection that the test goes on with. */
const CHANGES_WHO: Verb[] = ['signIn', 'signOut', 'choosePerson', 'makeFirstInstructor'];

test('the table names every call and no other', () => {
  expect(Object.keys(CALL_RULES).toSorted()).toEqual(VERB_NAMES.toSorted());
});

test('once roles bind, a call is refused exactly where its role is not in the table', async () => {
  const yard = await openYardWithRoles();
  const refusedByTable = /^forbidden: The call \w+ is for /;
  let refusals = 0;
  for (const verb of VERB_NAMES) {
    if (CHANGES_WHO.includes(verb)) continue;
    const { roles } = CALL_RULES[verb];
    for (const role of ['nobody', ...PERSON_ROLES] as const) {
      const answer = await tryCall(yard[role], verb);
      const allowed = roles === 'anyone' || (role !== 'nobody' && roles.includes(role));
      if (allowed) expect(answer, `${verb} by ${role}`).not.toMatch(refusedByTable);
      else {
        expect(answer, `${verb} by ${role}`).toMatch(refusedByTable);
        refusals++;
      }
    }
  }
  expect(refusals).toBeGreaterThan(15);
});

test('before any passphrase is set, what was possible without roles goes on, and what needs somebody signed in does not', async () => {
  for (const verb of VERB_NAMES) {
    if (CHANGES_WHO.includes(verb)) continue;
    const answer = await tryCall(await openTestHost(), verb);
    if (CALL_RULES[verb].openYard === 'anyone') expect(answer, verb).not.toMatch(/^forbidden/);
    else expect(answer, verb).toMatch(/^forbidden: The call \w+ needs somebody signed in; make the first instructor first\.$/);
  }
});

async function tryCall(page: { refusal(verb: Verb, request: unknown): Promise<string> }, verb: Verb): Promise<string> {
  try {
    return await page.refusal(verb, sampleRequest(verb));
  } catch {
    return 'answered';
  }
}
