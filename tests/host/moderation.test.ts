import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import type { HostOptions } from '../../electron/host/host.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { handInRun } from './handed-in-run.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { withoutTriggers } from './without-triggers.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const reasons = 'As seen in the replay.';

async function openModeration(options: Partial<HostOptions> = {}) {
  const yard = await openYardWithRoles(options);
  const { host, instructor, apprentice, otherApprentice, ids } = yard;
  const secondId = (await instructor.ask('createPerson', { role: 'assessor' })).id;
  const thirdId = (await instructor.ask('createPerson', { role: 'assessor' })).id;
  const [second, third] = [host.page(), host.page()];
  for (const [page, personId] of [
    [second, secondId],
    [third, thirdId],
  ] as const) {
    await instructor.ask('setPassphrase', { personId, passphrase: 'one of many' });
    await page.ask('signIn', { personId, passphrase: 'one of many' });
  }
  const runIds = [
    await cutSampleRun(apprentice, {}, { score: 80, passed: true }),
    await cutSampleRun(otherApprentice, {}, { score: 40, passed: false }),
  ];
  const make = { title: 'Autumn', runIds, firstId: ids.assessor, secondId };
  return { ...yard, second, secondId, third, runIds, make, set: await instructor.ask('makeModerationSet', make) };
}

test('two assessors judge blind; agreement shows when both are through, and to nobody before', async () => {
  const { assessor, second, third, instructor, set, runIds } = await openModeration();
  const judge = (runId: string, decision: 'competent' | 'not-yet-competent') => ({ setId: set.id, runId, decision, reasons });
  const [good, bad] = runIds as [string, string];
  expect(await assessor.ask('judgeBlind', judge(good, 'competent'))).toEqual({ judged: 1, runs: 2 });
  expect(await assessor.refusal('judgeBlind', judge(good, 'not-yet-competent'))).toMatch(
    /^conflict: You judged this run already/,
  );
  await assessor.ask('judgeBlind', judge(bad, 'not-yet-competent'));
  const overruled = [{ measureId: 'severance', mark: 60, reason: 'A bridge was left.' }];
  await second.ask('judgeBlind', { ...judge(good, 'not-yet-competent'), overruled });
  for (const page of [assessor, second, instructor]) {
    const { comparison, runs } = await page.ask('getModerationSet', { setId: set.id });
    expect(comparison).toBeNull();
    expect(JSON.stringify(runs)).not.toContain('Apprentice');
  }
  // Who only looks on sees which run waits for whom; the two do not see how far into the set the other is.
  const seen = await instructor.ask('getModerationSet', { setId: set.id });
  expect(seen.runs.map((run) => run.judgedBy?.length)).toEqual([2, 1]);
  expect(seen.runs[1]?.judgedBy).toEqual([set.first.personId]);
  expect((await second.ask('getModerationSet', { setId: set.id })).runs.map((run) => run.judgedBy)).toEqual([null, null]);
  // Nor does the ledger tell: only one's own judgement can be read there.
  for (const [page, readable] of [
    [assessor, 2],
    [second, 1],
    [third, 0],
    [instructor, 0],
  ] as const) {
    const { entries } = await page.ask('listLedger', { kinds: ['moderation'], subject: set.id });
    const judged = entries.filter(({ body }) => body.change === 'judged');
    expect(judged).toHaveLength(3);
    expect(judged.filter(({ body }) => 'decision' in body || 'reasons' in body)).toHaveLength(readable);
  }
  expect((await second.ask('getModerationSet', { setId: set.id })).runs.map((run) => run.own?.score ?? null)).toEqual([40, null]);
  expect(await third.refusal('getModerationSet', { setId: set.id })).toMatch(/^forbidden/);
  expect(await third.refusal('judgeBlind', judge(good, 'competent'))).toMatch(/^forbidden/);
  expect((await third.ask('listModerationSets', {})).sets).toEqual([]);

  await second.ask('judgeBlind', judge(bad, 'not-yet-competent'));
  const { comparison } = await assessor.ask('getModerationSet', { setId: set.id });
  expect(comparison).toMatchObject({
    runs: 2,
    decisions: { cases: 2, observed: 0.5, kappa: 0 },
    scores: { targets: 2, judges: 2 },
  });
  expect(comparison?.differences).toEqual([
    {
      runId: good,
      firstDecision: 'competent',
      secondDecision: 'not-yet-competent',
      scoreDifference: 40,
      measures: [{ measureId: 'severance', firstMark: 100, secondMark: 60 }],
    },
  ]);
  // And it is told to everybody, in the ledger as well.
  const { total, entries } = await instructor.ask('listLedger', { kinds: ['moderation'] });
  expect(total).toBe(5);
  expect(entries.filter(({ body }) => body.change === 'judged' && body.reasons === reasons)).toHaveLength(4);
});

test('an entry that was made unreadable tells nothing of a judgement until the set is through', async () => {
  const folder = temporaryFolder();
  const { host, assessor, instructor, secondId, ids, set, runIds } = await openModeration({ folder });
  for (const runId of runIds)
    await assessor.ask('judgeBlind', { setId: set.id, runId, decision: 'not-yet-competent', reasons: 'Lost the arc twice.' });
  expect((await instructor.ask('listLedger', { kinds: ['moderation'] })).total).toBe(3);
  await host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  withoutTriggers(records, () => records.exec("update ledger set body = substr(body, 2) where body like '%Lost the arc%'"));
  records.close();
  const again = await openTestHost({ folder });
  const [second, staff] = [again.page(), again.page()];
  await second.ask('signIn', { personId: secondId, passphrase: 'one of many' });
  await staff.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  const unreadable = async (page: TestPage) =>
    (await page.ask('listLedger', {})).entries.filter(({ kind }) => kind === 'unreadable').map(({ body }) => body);
  const nothing = { withheld: expect.stringContaining('once the moderation set is through') };
  for (const page of [second, staff]) expect(await unreadable(page)).toEqual([nothing, nothing]);
  for (const runId of runIds) await second.ask('judgeBlind', { setId: set.id, runId, decision: 'competent', reasons });
  for (const page of [second, staff])
    expect(await unreadable(page)).toEqual(runIds.map(() => ({ found: expect.stringContaining('Lost the arc') })));
});

test('a set is of two different assessors and finished runs', async () => {
  const { instructor, make, ids } = await openModeration();
  expect(await instructor.refusal('makeModerationSet', { ...make, secondId: make.firstId })).toMatch(/^conflict/);
  expect(await instructor.refusal('makeModerationSet', { ...make, secondId: ids.apprentice })).toMatch(
    /^conflict: Apprentice 01 is no assessor/,
  );
  const none = '00000000-0000-4000-8000-000000000000';
  expect(await instructor.refusal('makeModerationSet', { ...make, runIds: [none] })).toMatch(/^not-found/);
});

test('until a set is through, its assessors do not learn what was decided on its runs before', async () => {
  const yard = await openYardWithRoles();
  const { host, instructor, assessor, ids } = yard;
  const runId = await handInRun(yard);
  const secondId = (await instructor.ask('createPerson', { role: 'assessor' })).id;
  await instructor.ask('setPassphrase', { personId: secondId, passphrase: 'one of many' });
  const second = host.page();
  await second.ask('signIn', { personId: secondId, passphrase: 'one of many' });
  await assessor.ask('addNote', { runId, tick: 3, text: 'Too high.' });
  const overruled = [{ measureId: 'stand-off', mark: 90, reason: 'Looked at the wrong trace.' }];
  await assessor.ask('signVerdict', { runId, decision: 'competent', reasons, overruled, passphrase: PASSPHRASES.assessor });
  const [signed] = (await assessor.ask('listLedger', { kinds: ['verdict'] })).entries;
  await instructor.ask('correctEntry', { seq: signed?.seq ?? 0, reason: 'Competent it is not.' });
  const set = await instructor.ask('makeModerationSet', { title: 'Again', runIds: [runId], firstId: ids.assessor, secondId });
  const seen = async () => [
    (await second.ask('getRun', { runId })).assessment?.decision,
    (await second.ask('listRuns', {})).runs[0]?.assessment?.decision,
    (await second.ask('listQueue', { state: 'all' })).rows.map((row) => [row.run.assessment?.decision, row.decidedBy]),
    (await second.ask('listVerdicts', { runId })).verdicts.length,
    (await second.ask('listNotes', { runId })).notes.length,
    (await second.ask('listDue', { personId: ids.apprentice })).due[0]?.drills[0]?.decision,
    await saidOf(second),
  ];
  const saidOf = async (page: TestPage) =>
    (await page.ask('listLedger', { subject: runId })).entries.flatMap(
      ({ body }) => body.text ?? body.reasons ?? body.reason ?? [],
    );
  const everything = ['Competent it is not.', 'Looked at the wrong trace.', reasons, 'Too high.'];
  expect(await seen()).toEqual([null, null, [[null, null]], 0, 0, null, []]);
  const { entries } = await second.ask('listLedger', { subject: runId });
  expect(entries.map(({ kind }) => kind)).toEqual(['correction', 'overrule', 'verdict', 'note', 'run-submitted']);
  expect(JSON.stringify(entries)).not.toMatch(/"competent"|"mark"|"signature"/);
  expect(entries[0]?.body).toEqual({ corrects: signed?.seq, kind: 'verdict' });
  // Their own words, and those who do not judge here.
  expect(await saidOf(assessor)).toEqual(everything.slice(1));
  expect(await saidOf(instructor)).toEqual(everything);
  expect(await second.refusal('exportVerdict', { runId })).toMatch(/^forbidden/);
  expect((await assessor.ask('listVerdicts', { runId })).verdicts).toHaveLength(1);
  for (const page of [assessor, second]) await page.ask('judgeBlind', { setId: set.id, runId, decision: 'competent', reasons });
  expect(await seen()).toEqual(['competent', 'competent', [['competent', 'Assessor 01']], 1, 1, 'competent', everything]);
});
