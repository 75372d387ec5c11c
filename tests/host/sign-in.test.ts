import { copyFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { handInRun } from './handed-in-run.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { sampleBegin, sampleChunk, sampleFinish } from './sample-hand.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const WRONG = 'not the passphrase';

test('a yard without a passphrase works as before; the first one makes roles bind, on every connection', async () => {
  const host = await openTestHost();
  expect(await host.ask('whoAmI', {})).toEqual({ person: null, rolesBind: false, withPassphrase: [], signedOutIdle: null });
  const apprentice = await host.ask('createPerson', { role: 'apprentice' });
  await host.ask('choosePerson', { personId: apprentice.id });
  expect(await host.refusal('checkLedger', {})).toMatch(/^forbidden: .*make the first instructor first/);
  expect(await host.refusal('makeFirstInstructor', { passphrase: 'short' })).toMatch(/^bad-request: .*at least 8/);

  const page = host.page();
  const { person, rolesBind } = await page.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor });
  expect([person?.name, rolesBind]).toEqual(['Instructor 01', true]);
  expect(await page.refusal('makeFirstInstructor', { passphrase: 'a second one' })).toMatch(/^conflict/);
  expect(await host.refusal('createPerson', { role: 'instructor' })).toBe(
    'forbidden: The call createPerson is for instructors only; nobody is signed in.',
  );
  expect(await host.ask('getSession', {})).toMatchObject({ personId: null });
  expect(await page.ask('getSession', {})).toMatchObject({ personId: person?.id });
});

test('two first instructors at once: one of them is', async () => {
  const host = await openTestHost();
  const answers = await Promise.all(
    [host.page(), host.page()].map((page) =>
      page.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor }).then(() => 'made', String),
    ),
  );
  expect(answers.filter((answer) => answer === 'made')).toHaveLength(1);
  expect((await host.ask('listPeople', {})).people).toHaveLength(1);
});

test('wrong passphrases wait longer and longer, over a restart and all at once too; the right one ends it', async () => {
  const folder = temporaryFolder();
  let now = 1_900_000_000_000;
  const timeOfDayMs = () => now;
  const { host, nobody, ids } = await openYardWithRoles({ folder, timeOfDayMs });
  const guess = (passphrase: string) => ({ personId: ids.instructor, passphrase });
  expect(await nobody.refusal('signIn', { personId: ids.instructor })).toMatch(/^wrong-passphrase/);
  const burst = await Promise.all(Array.from({ length: 12 }, () => nobody.refusal('signIn', guess(WRONG))));
  expect(burst.map((answer) => answer.split(':')[0]).toSorted()).toEqual([
    ...Array.from({ length: 9 }, () => 'wait'),
    ...Array.from({ length: 3 }, () => 'wrong-passphrase'),
  ]);
  await host.close();

  const again = await openTestHost({ folder, timeOfDayMs });
  expect(await again.refusal('signIn', guess(PASSPHRASES.instructor))).toBe(
    'wait: After 3 wrong passphrases the next try is possible in 2 seconds.',
  );
  now += 2000;
  expect(await again.refusal('signIn', guess(WRONG))).toMatch(/^wrong-passphrase/);
  expect(await again.refusal('signIn', guess(PASSPHRASES.instructor))).toMatch(/^wait: .* in 4 seconds/);
  now += 4000;
  expect((await again.ask('signIn', guess(PASSPHRASES.instructor))).person?.id).toBe(ids.instructor);
  expect(await again.refusal('signIn', guess(WRONG))).toMatch(/^wrong-passphrase/);
});

test('a session is of one connection and ends with signing out', async () => {
  const { apprentice, nobody, instructor, ids } = await openYardWithRoles();
  expect((await apprentice.ask('whoAmI', {})).person?.id).toBe(ids.apprentice);
  expect((await nobody.ask('whoAmI', {})).person).toBeNull();
  await instructor.ask('signOut', {});
  expect(await instructor.refusal('createPerson', { role: 'apprentice' })).toMatch(/^forbidden/);
  expect(await apprentice.refusal('choosePerson', { personId: ids.instructor })).toMatch(/^wrong-passphrase/);
  expect((await apprentice.ask('whoAmI', {})).person?.id).toBe(ids.apprentice);
});

test('an apprentice sees and adds to their own runs only', async () => {
  const { apprentice, otherApprentice, nobody, instructor, ids } = await openYardWithRoles();
  const { runId } = await apprentice.ask('beginRun', sampleBegin());
  const foreign = /^forbidden: This run is not of /;
  expect(await otherApprentice.refusal('appendToRun', sampleChunk(runId, 0))).toMatch(foreign);
  expect(await instructor.refusal('appendToRun', sampleChunk(runId, 0))).toMatch(foreign);
  await apprentice.ask('appendToRun', sampleChunk(runId, 0));
  expect(await otherApprentice.refusal('abandonRun', { runId })).toMatch(foreign);
  await apprentice.ask('finishRun', sampleFinish(runId, 60));
  expect((await apprentice.ask('listRuns', {})).runs.map((run) => run.personId)).toEqual([ids.apprentice]);
  expect((await otherApprentice.ask('listRuns', {})).total).toBe(0);
  expect((await nobody.ask('listRuns', {})).total).toBe(0);
  expect((await instructor.ask('listRuns', {})).total).toBe(1);
  for (const page of [otherApprentice, nobody]) {
    for (const verb of ['getRun', 'exportRun'] as const) expect(await page.refusal(verb, { runId })).toMatch(foreign);
    expect(await page.refusal('listRuns', { personId: ids.apprentice })).toMatch(/^forbidden/);
    expect(await page.refusal('listStandings', { personId: ids.apprentice })).toMatch(/^forbidden/);
  }
  expect((await apprentice.ask('getRun', { runId })).id).toBe(runId);
  expect(await apprentice.refusal('beginRun', sampleBegin(ids.otherApprentice))).toMatch(/^forbidden/);
  expect(await apprentice.refusal('setSettings', { prices: undefined, units: 'furlong' })).toMatch(/^bad-request/);
  const { prices } = await apprentice.ask('getSettings', {});
  expect(await apprentice.refusal('setSettings', { prices })).toMatch(/^forbidden/);
});

test('whoever sits down next at a page sends the end of what was begun there, and has no part in it otherwise', async () => {
  const { host, apprentice: page, otherApprentice, ids } = await openYardWithRoles();
  const { runId } = await page.ask('beginRun', sampleBegin());
  await page.ask('appendToRun', sampleChunk(runId, 0));
  await page.ask('signIn', { personId: ids.otherApprentice });
  const untold = { personId: ids.apprentice, state: 'finished', score: null, passed: null };
  expect(await page.ask('finishRun', sampleFinish(runId, 60))).toMatchObject(untold);
  const foreign = /^forbidden: This run is not of Apprentice 02/;
  for (const verb of ['getRun', 'exportRun', 'listVerdicts', 'listNotes', 'submitRun'] as const)
    expect(await page.refusal(verb, { runId }), verb).toMatch(foreign);
  expect(await page.refusal('checkHandIn', { runIds: [runId] })).toMatch(foreign);
  const guess = { runId, guess: 'right' } as const;
  expect(await page.refusal('noteGuess', guess)).toMatch(foreign);
  // Signed out while the page still asked: nobody else has come.
  await page.ask('signOut', {});
  expect(await page.ask('noteGuess', guess)).toEqual({ guess: 'right' });
  expect(await page.refusal('getRun', { runId })).toMatch(/^forbidden: This run is not of anybody signed in/);
  expect(await otherApprentice.refusal('noteGuess', guess)).toMatch(foreign);
  const elsewhere = host.page();
  await elsewhere.ask('signIn', { personId: ids.apprentice });
  expect((await elsewhere.ask('submitRun', { runId })).personId).toBe(ids.apprentice);
});

test('asked again for the end of an assessment, a page tells whoever sits there since neither marks nor decision', async () => {
  const yard = await openYardWithRoles();
  const { apprentice: page, assessor, ids } = yard;
  const runId = await handInRun(yard);
  const passphrase = PASSPHRASES.assessor;
  await assessor.ask('signVerdict', { runId, decision: 'competent', reasons: 'Clean.', overruled: [], passphrase });
  const { tickCount } = await assessor.ask('getRun', { runId });
  const again = () => page.ask('finishRun', sampleFinish(runId, tickCount));
  expect(await again()).toMatchObject({ score: expect.any(Number), assessment: { decision: 'competent' } });
  await page.ask('signIn', { personId: ids.otherApprentice });
  const untold = { score: null, passed: null, assessment: { decision: null, decidedAt: null } };
  expect(await again()).toMatchObject(untold);
  await page.ask('signOut', {});
  expect(await again()).toMatchObject(untold);
});

test('a run by nobody can be looked at where it was cut', async () => {
  const { nobody, otherApprentice } = await openYardWithRoles();
  const { runId } = await nobody.ask('beginRun', sampleBegin());
  await nobody.ask('appendToRun', sampleChunk(runId, 0));
  await nobody.ask('finishRun', sampleFinish(runId, 60));
  expect((await nobody.ask('getRun', { runId })).personId).toBeNull();
  expect(await otherApprentice.refusal('getRun', { runId })).toMatch(/^forbidden/);
});

test('passphrases: nothing of them is in the records; one changes the own with the current, an instructor gives one', async () => {
  const folder = temporaryFolder();
  const { host, assessor, instructor, nobody, ids } = await openYardWithRoles({ folder });
  const next = 'another long one';
  expect(await assessor.refusal('setPassphrase', { personId: ids.assessor, passphrase: next })).toMatch(/^wrong-passphrase/);
  expect(await assessor.refusal('setPassphrase', { personId: ids.assessor, passphrase: next, current: WRONG })).toMatch(
    /^wrong-passphrase/,
  );
  expect(await assessor.refusal('setPassphrase', { personId: ids.instructor, passphrase: next })).toMatch(/^forbidden/);
  expect(await instructor.refusal('setPassphrase', { personId: ids.apprentice, passphrase: next })).toMatch(/^conflict/);
  await assessor.ask('setPassphrase', { personId: ids.assessor, passphrase: next, current: PASSPHRASES.assessor });
  expect(await nobody.refusal('signIn', { personId: ids.assessor, passphrase: PASSPHRASES.assessor })).toMatch(
    /^wrong-passphrase/,
  );
  expect((await nobody.ask('signIn', { personId: ids.assessor, passphrase: next })).person?.id).toBe(ids.assessor);
  await host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  const text = JSON.stringify(
    ['passphrases', 'ledger', 'settings'].map((table) => records.prepare(`select * from ${table}`).all()),
  );
  records.close();
  for (const passphrase of [...Object.values(PASSPHRASES), next]) expect(text).not.toContain(passphrase);
});

test('records from before there were roles keep their people; the instructor of then sets the first passphrase', async () => {
  const folder = temporaryFolder();
  copyFileSync(path.join(import.meta.dirname, 'old-files', 'records-version-1.db'), path.join(folder, 'records.db'));
  const host = await openTestHost({ folder });
  const { people } = await host.ask('listPeople', {});
  const { person } = await host.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor });
  expect(person).toEqual(people.find((one) => one.role === 'instructor'));
  expect((await host.ask('listRuns', {})).total).toBe(2);
  await host.close();
  const again = await openTestHost({ folder });
  expect((await again.ask('whoAmI', {})).rolesBind).toBe(true);
  expect((await again.ask('listRuns', {})).total).toBe(0);
});
