// Staff who do nothing for a while are signed out; what a page asks by itself does not keep them, and apprentices stay.
import { expect, test } from 'vitest';
import { ASKED_BY_THE_PAGE } from '../../electron/contract/call-roles.ts';
import { sampleRequest } from '../security/sample-request.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const MINUTE_MS = 60_000;

async function openClocked() {
  let now = Date.parse('2030-01-07T08:00:00.000Z');
  const yard = await openYardWithRoles({ timeOfDayMs: () => now });
  return {
    ...yard,
    pass: (minutes: number) => {
      now += minutes * MINUTE_MS;
    },
  };
}

test('after a quarter of an hour without an action the next call finds nobody signed in, in a plain sentence', async () => {
  const { instructor, assessor, apprentice, ids, pass } = await openClocked();
  pass(14);
  await instructor.ask('listGroups', {});
  await assessor.ask('stillHere', {});
  pass(14);
  await instructor.ask('listGroups', {});
  expect((await assessor.ask('whoAmI', {})).person?.id).toBe(ids.assessor);
  pass(1.5);
  // Since its last sign of life the assessor's page is over its time, the instructor's is not.
  expect(await assessor.refusal('listQueue', {})).toBe(
    'forbidden: Assessor 01 was signed out, because nothing had been done for 15 minutes. Sign in again; what stands on the page is still there.',
  );
  expect(await assessor.ask('whoAmI', {})).toMatchObject({ person: null, signedOutIdle: { id: ids.assessor } });
  expect((await instructor.ask('whoAmI', {})).person?.id).toBe(ids.instructor);
  await assessor.ask('signIn', { personId: ids.assessor, passphrase: PASSPHRASES.assessor });
  expect(await assessor.ask('whoAmI', {})).toMatchObject({ person: { id: ids.assessor }, signedOutIdle: null });
  pass(24 * 60);
  expect((await apprentice.ask('whoAmI', {})).person?.id).toBe(ids.apprentice);
});

test('what a page asks by itself keeps nobody signed in', async () => {
  const { instructor, pass } = await openClocked();
  for (let minute = 0; minute < 16; minute++) {
    pass(1);
    for (const verb of ASKED_BY_THE_PAGE) await instructor.call(verb, sampleRequest(verb));
  }
  expect((await instructor.ask('whoAmI', {})).person).toBeNull();
});

test('instructors set the time and the name of the yard; others cannot', async () => {
  const { instructor, assessor, apprentice, ids, pass } = await openClocked();
  for (const page of [assessor, apprentice]) {
    expect(await page.refusal('setSettings', { idleSignOutMinutes: 400 })).toMatch(/^forbidden: .* set by instructors/);
    expect(await page.refusal('setSettings', { yardName: 'Elsewhere' })).toMatch(/^forbidden/);
  }
  expect(await instructor.refusal('setSettings', { idleSignOutMinutes: 0 })).toMatch(/^bad-request/);
  expect(await instructor.refusal('setSettings', { yardName: '  ' })).toMatch(/^bad-request/);
  await instructor.ask('setSettings', { idleSignOutMinutes: 60, yardName: ' Tidewater Row ' });
  expect(await apprentice.ask('getSettings', {})).toMatchObject({ idleSignOutMinutes: 60, yardName: 'Tidewater Row' });
  pass(59);
  expect((await assessor.ask('whoAmI', {})).person?.id).toBe(ids.assessor);
  pass(2);
  expect((await assessor.ask('whoAmI', {})).person).toBeNull();
});
