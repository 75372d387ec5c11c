import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { PDFDocument } from '@cantoo/pdf-lib';
import { expect, test } from 'vitest';
import { verifyVerb } from '../../electron/command-line/verify.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { handInRun } from './handed-in-run.ts';
import { checkOf } from './job-ends.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { withoutTriggers } from './without-triggers.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const passphrase = PASSPHRASES.assessor;
const REASONS = 'Even height, but the arc was never started on the edge.';

async function textOf(page: TestPage, verb: 'exportRun' | 'exportVerdict', runId: string): Promise<string> {
  const file = await page.ask(verb, { runId });
  return file.outcome === 'text' ? file.text : '';
}

test('a verdict is signed over run and marks, shows to the apprentice, and is checked offline with the public key', async () => {
  const yard = await openYardWithRoles();
  const { assessor, apprentice, otherApprentice, instructor, ids } = yard;
  const runId = await handInRun(yard);
  expect(await checkOf(assessor, runId)).toMatchObject({ trust: 'same' });
  const sign = { runId, decision: 'not-yet-competent', reasons: REASONS, passphrase } as const;
  expect(await instructor.refusal('signVerdict', sign)).toMatch(/^forbidden/);
  expect(await assessor.refusal('signVerdict', { ...sign, passphrase: 'not the passphrase' })).toMatch(/^wrong-passphrase/);
  const strange = [{ measureId: 'no-such', mark: 10, reason: 'It is not there.' }];
  expect(await assessor.refusal('signVerdict', { ...sign, overruled: strange })).toMatch(/^conflict: .*no mark for no-such/);
  expect((await apprentice.ask('getRun', { runId })).score).toBeNull();

  const overruled = [{ measureId: 'stand-off', mark: 55, reason: 'Held well until the hand slipped.' }];
  const verdict = await assessor.ask('signVerdict', { ...sign, overruled });
  expect(verdict).toMatchObject({
    decision: 'not-yet-competent',
    assessor: 'Assessor 01',
    trust: 'same',
    check: 'fits',
    overruled,
  });
  expect(verdict.marks.map((mark) => mark.measureId)).toContain('stand-off');

  const seen = await apprentice.ask('getRun', { runId });
  expect(seen.assessment).toMatchObject({ decision: 'not-yet-competent' });
  expect(seen.score).toBe(verdict.score);
  expect((await apprentice.ask('listVerdicts', { runId })).verdicts).toEqual([verdict]);
  expect(await otherApprentice.refusal('listVerdicts', { runId })).toMatch(/^forbidden/);
  const { rows } = await assessor.ask('listQueue', { state: 'decided' });
  expect(rows.map((row) => [row.run.id, row.decidedBy])).toEqual([[runId, 'Assessor 01']]);

  const folder = temporaryFolder();
  const put = (name: string, text: string) => {
    writeFileSync(path.join(folder, name), text);
    return path.join(folder, name);
  };
  const runText = await textOf(apprentice, 'exportRun', runId);
  const run = put('a.kerfhand-run', runText);
  const verdictText = await textOf(apprentice, 'exportVerdict', runId);
  put('a.kerfhand-run.verdict', verdictText);
  const pem = await apprentice.ask('exportPublicKey', { personId: ids.assessor });
  const key = put('key.pem', pem.outcome === 'text' ? pem.text : '');
  const verify = (verdictFile?: string) =>
    verifyVerb.run({
      json: true,
      words: [run],
      text: (flag) => (flag === 'public-key' ? key : flag === 'verdict' ? verdictFile : undefined),
    });
  expect(verify()).toMatchObject({ exitCode: 0, json: { signature: 'good' } });
  const forged = put('forged.verdict', verdictText.replace('not-yet-competent', 'competent'));
  expect(verify(forged)).toMatchObject({ exitCode: 3, json: { signature: 'does-not-fit' } });
});

test('a later verdict takes the place of the one before; both stay, in the records and in the ledger', async () => {
  const yard = await openYardWithRoles();
  const { assessor } = yard;
  const runId = await handInRun(yard);
  const first = await assessor.ask('signVerdict', { runId, decision: 'not-yet-competent', reasons: REASONS, passphrase });
  const overruled = [{ measureId: 'stand-off', mark: 90, reason: 'Looked at the wrong trace before.' }];
  const second = await assessor.ask('signVerdict', {
    runId,
    decision: 'competent',
    reasons: 'Seen again.',
    overruled,
    passphrase,
  });
  expect(second.keyId).toBe(first.keyId);
  expect((await assessor.ask('listVerdicts', { runId })).verdicts.map((verdict) => verdict.id)).toEqual([second.id, first.id]);
  expect((await assessor.ask('getRun', { runId })).assessment?.decision).toBe('competent');
  const { entries } = await assessor.ask('listLedger', { subject: runId });
  expect(entries.map((entry) => [entry.kind, entry.body.replaces])).toEqual([
    ['overrule', undefined],
    ['verdict', first.id],
    ['verdict', null],
    ['run-submitted', undefined],
  ]);
  expect((await assessor.ask('checkLedger', {})).ok).toBe(true);
});

test('what was not handed in, or does not come out the same, is not signed', async () => {
  const yard = await openYardWithRoles();
  const { assessor, apprentice } = yard;
  const runId = await cutSampleRun(apprentice);
  const sign = { runId, decision: 'competent', reasons: REASONS, passphrase } as const;
  expect(await assessor.refusal('signVerdict', sign)).toMatch(/^conflict: This run was not handed in/);
  await apprentice.ask('submitRun', { runId });
  // The page claimed digests and marks that the inputs do not give.
  expect(await checkOf(assessor, runId)).toMatchObject({
    trust: 'different',
    sentence: expect.stringContaining('first in'),
  });
  expect(await assessor.refusal('signVerdict', sign)).toMatch(/^conflict: No verdict can be signed/);
});

test('a run of before an update cannot be cut again; it is signed as of another core', async () => {
  const folder = temporaryFolder();
  const yard = await openYardWithRoles({ folder });
  const runId = await handInRun(yard);
  await yard.host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.exec("update runs set core_version = '1.0.0'");
  records.close();
  const host = await openTestHost({ folder });
  await host.ask('signIn', { personId: yard.ids.assessor, passphrase });
  expect(await checkOf(host, runId)).toMatchObject({ trust: 'other-core' });
  const sign = { runId, decision: 'competent', reasons: REASONS, passphrase } as const;
  expect(await host.ask('signVerdict', sign)).toMatchObject({ trust: 'other-core', check: 'fits' });
});

test('somebody at the records file: an exchanged run, a foreign name, a changed mark and a changed verdict all show', async () => {
  const folder = temporaryFolder();
  const yard = await openYardWithRoles({ folder });
  const runId = await handInRun(yard);
  await yard.assessor.ask('signVerdict', { runId, decision: 'not-yet-competent', reasons: REASONS, passphrase });
  await yard.host.close();
  const atTheFile = (work: (records: DatabaseSync) => void) => {
    const records = new DatabaseSync(path.join(folder, 'records.db'));
    work(records);
    records.close();
  };
  const change = (sql: string) => atTheFile((records) => withoutTriggers(records, () => records.exec(sql)));
  async function reopened<T>(ask: (page: TestPage) => Promise<T>): Promise<T> {
    const host = await openTestHost({ folder });
    await host.ask('signIn', { personId: yard.ids.assessor, passphrase });
    const answer = await ask(host);
    await host.close();
    return answer;
  }
  const look = (page: TestPage) => Promise.all([checkOf(page, runId), page.ask('listVerdicts', { runId })]);
  const [
    good,
    {
      verdicts: [fits],
    },
  ] = await reopened(look);
  expect([good.trust, fits?.check]).toEqual(['same', 'fits']);

  const under = (personId: string) => change(`update runs set person_id = '${personId}' where id = '${runId}'`);
  under(yard.ids.otherApprentice);
  await reopened(async (page) => {
    expect(await checkOf(page, runId)).toMatchObject({ trust: 'different', sentence: expect.stringContaining('another person') });
    const sign = { runId, decision: 'competent', reasons: REASONS, passphrase } as const;
    expect(await page.refusal('signVerdict', sign)).toMatch(/^conflict: No verdict can be signed .* another person/);
    const { verdicts } = await page.ask('listVerdicts', { runId });
    expect(verdicts).toMatchObject([{ check: 'other-run', checkSentence: expect.stringContaining('another person') }]);
    const paper = await page.ask('exportRunReport', { runId });
    if (paper.outcome !== 'bytes') throw new Error(`The report was ${paper.outcome}.`);
    const report = await PDFDocument.load(Buffer.from(paper.bytes, 'base64'));
    expect(report.getSubject()).toMatch(/^Apprentice 01, /);
  });
  under(yard.ids.apprentice);

  let pem = '';
  atTheFile((records) => {
    pem = String(records.prepare('select public_pem from signing_keys').get()?.public_pem);
  });
  change("update signing_keys set public_pem = 'x'");
  const [, spoilt] = await reopened(look);
  expect(spoilt.verdicts).toMatchObject([{ check: 'other-key', checkSentence: expect.stringMatching(/^The key .* was spoilt/) }]);
  change(`update signing_keys set public_pem = '${pem}'`);

  change(`update run_contents set score_record = json_set(score_record, '$.score', 99) where run_id = '${runId}'`);
  const [
    marked,
    {
      verdicts: [about],
    },
  ] = await reopened(look);
  expect([marked.trust, about?.check]).toEqual(['different', 'other-run']);

  change(`update runs set final_digest = '0123456789abcdef' where id = '${runId}'`);
  const [exchanged] = await reopened(look);
  expect(exchanged).toMatchObject({ trust: 'different', sentence: expect.stringContaining('not the run that was handed in') });

  expect(() =>
    atTheFile((records) => records.exec("update verdicts set document = replace(document, 'not-yet-competent', 'competent')")),
  ).toThrow('only added to');
  change("update verdicts set document = replace(document, 'not-yet-competent', 'competent')");
  const [
    ,
    {
      verdicts: [forged],
    },
  ] = await reopened(look);
  expect(forged).toMatchObject({ decision: 'competent', check: 'forged' });

  change("update ledger set body = '{' where kind = 'run-submitted'");
  const [unreadable] = await reopened(look);
  expect(unreadable).toMatchObject({ trust: 'different', sentence: expect.stringContaining('not the run that was handed in') });
});

test('a verdict that was spoilt in the records stands in its place, and the others of its run beside it', async () => {
  const folder = temporaryFolder();
  const yard = await openYardWithRoles({ folder });
  const runId = await handInRun(yard);
  const sign = { runId, reasons: REASONS, passphrase } as const;
  const first = await yard.assessor.ask('signVerdict', { ...sign, decision: 'not-yet-competent' });
  const second = await yard.assessor.ask('signVerdict', { ...sign, decision: 'competent' });
  await yard.host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  withoutTriggers(records, () => records.exec(`update verdicts set document = '{' where id = '${second.id}'`));
  records.close();

  const host = await openTestHost({ folder });
  await host.ask('signIn', { personId: yard.ids.assessor, passphrase });
  expect((await host.ask('listVerdicts', { runId })).verdicts).toEqual([
    {
      id: second.id,
      assessorId: yard.ids.assessor,
      assessor: second.assessor,
      at: second.at,
      check: 'unreadable',
      checkSentence: expect.stringMatching(/^The verdict file is damaged at /),
    },
    first,
  ]);
  for (const verb of ['exportRunReport', 'exportVerdict'] as const)
    expect(await host.refusal(verb, { runId })).toMatch(/^damaged: The verdict on this run cannot be read: /);
  const third = await host.ask('signVerdict', { ...sign, decision: 'competent' });
  const { verdicts } = await host.ask('listVerdicts', { runId });
  expect(verdicts.map(({ id, check }) => [id, check])).toEqual([
    [third.id, 'fits'],
    [second.id, 'unreadable'],
    [first.id, 'fits'],
  ]);
  await host.close();
});

test('a key outlives a change of passphrase by its owner, and is retired when an instructor gives a new one', async () => {
  const yard = await openYardWithRoles();
  const { assessor, instructor, ids } = yard;
  const runId = await handInRun(yard);
  const sign = { runId, decision: 'not-yet-competent', reasons: REASONS } as const;
  expect(await assessor.refusal('exportPublicKey', { personId: ids.assessor })).toMatch(/^not-found/);
  const first = await assessor.ask('signVerdict', { ...sign, passphrase });
  await assessor.ask('setPassphrase', { personId: ids.assessor, passphrase: 'second passphrase', current: passphrase });
  const second = await assessor.ask('signVerdict', { ...sign, passphrase: 'second passphrase' });
  expect(second.keyId).toBe(first.keyId);
  await instructor.ask('setPassphrase', { personId: ids.assessor, passphrase: 'third passphrase' });
  const third = await assessor.ask('signVerdict', { ...sign, passphrase: 'third passphrase' });
  expect(third.keyId).not.toBe(first.keyId);
  const { verdicts } = await assessor.ask('listVerdicts', { runId });
  expect(verdicts.map((verdict) => verdict.check)).toEqual(['fits', 'fits', 'fits']);
});

test('notes are pinned to a moment and come in the order of the run; on an assessment after the decision', async () => {
  const yard = await openYardWithRoles();
  const { assessor, instructor, apprentice, otherApprentice } = yard;
  const runId = await handInRun(yard);
  await assessor.ask('addNote', { runId, tick: 50, text: 'Here the tip touches.' });
  const early = await instructor.ask('addNote', { runId, tick: 10, text: 'Good start.' });
  expect(early).toMatchObject({ name: 'Instructor 01', tick: 10 });
  expect(await assessor.refusal('addNote', { runId, tick: 61, text: 'After the end.' })).toMatch(
    /^conflict: The run ends at tick 60/,
  );
  expect(await apprentice.refusal('addNote', { runId, tick: 1, text: 'Mine.' })).toMatch(/^forbidden/);
  expect((await assessor.ask('listNotes', { runId })).notes.map((note) => note.tick)).toEqual([10, 50]);
  expect((await apprentice.ask('listNotes', { runId })).notes).toEqual([]);
  await assessor.ask('signVerdict', { runId, decision: 'competent', reasons: REASONS, passphrase });
  expect((await apprentice.ask('listNotes', { runId })).notes).toHaveLength(2);
  expect(await otherApprentice.refusal('listNotes', { runId })).toMatch(/^forbidden/);
});
