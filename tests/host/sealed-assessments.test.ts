// What an apprentice gets of an assessment before it is decided: the drill to cut, and not one mark.
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { CORE_VERSION, type Drill } from '../../sim-core/index.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { handInRun } from './handed-in-run.ts';
import { checkOf } from './job-ends.ts';
import { openTestHost, type TestPage, temporaryFolder } from './open-test-host.ts';
import { CHUNK_TICKS, sampleBegin, sampleChunk, sampleFinish } from './sample-hand.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const ASSESSMENT = 'assessment-lifting-eye-10';

function weights(text: string): number[] {
  return (JSON.parse(text) as Drill).rubric.measures.map((measure) => measure.weight);
}

test('the weights of an assessment are for those who decide', async () => {
  const { instructor, assessor, apprentice, nobody } = await openYardWithRoles();
  for (const page of [instructor, assessor]) {
    expect(new Set(weights((await page.ask('getDrill', { id: ASSESSMENT })).text)).size).toBeGreaterThan(1);
  }
  for (const page of [apprentice, nobody]) {
    const { text, drill } = await page.ask('getDrill', { id: ASSESSMENT });
    expect(new Set(weights(text))).toEqual(new Set([1]));
    expect(text).not.toContain('mustReach');
    expect(new Set(weights((await page.ask('getDrill', { hash: drill.hash })).text))).toEqual(new Set([1]));
    const { drillText } = await page.ask('beginRun', { ...sampleBegin(), drillId: ASSESSMENT });
    expect(new Set(weights(drillText))).toEqual(new Set([1]));
    expect(new Set(weights((await page.ask('getDrill', { id: 'what-is-wrong-first-6' })).text)).size).toBeGreaterThan(1);
  }
  const open = await openTestHost();
  expect(new Set(weights((await open.ask('getDrill', { id: ASSESSMENT })).text)).size).toBeGreaterThan(1);
});

test('nor does a demonstration of an assessment tell them, and one of a practice drill tells everything', async () => {
  const open = await openTestHost();
  const shown: string[] = [];
  for (const drillId of [ASSESSMENT, sampleBegin().drillId]) {
    const runId = await cutSampleRun(open, { drillId });
    await open.ask('keepDemonstration', { hash: (await open.ask('getRun', { runId })).drillHash, runId });
    shown.push(runId);
  }
  const instructor = open.page();
  await instructor.ask('makeFirstInstructor', { passphrase: PASSPHRASES.instructor });
  const { id: personId } = await instructor.ask('createPerson', { role: 'apprentice' });
  const apprentice = open.page();
  await apprentice.ask('signIn', { personId });
  const told = async (page: TestPage) =>
    await Promise.all(
      shown.map(async (runId) => {
        const { drillText, score, scoreRecord, trace } = await page.ask('getRun', { runId });
        return [new Set(weights(drillText)).size > 1 || drillText.includes('mustReach'), score, scoreRecord?.score, trace?.hz];
      }),
    );
  const whole = [true, 81.5, 81.5, 30];
  expect(await told(instructor)).toEqual([whole, whole]);
  for (const page of [apprentice, open.page()]) expect(await told(page)).toEqual([[false, 81.5, undefined, 30], whole]);
});

test('an assigned assessment is marked by the host, whatever the page claims, and shows no mark until it is decided', async () => {
  const { instructor, apprentice, ids } = await openYardWithRoles();
  const { drillId } = sampleBegin();
  const { id: assignmentId } = await instructor.ask('assign', {
    title: 'Test',
    drillIds: [drillId],
    personIds: [ids.apprentice],
    cueLevel: 'none',
  });
  const runId = await cutSampleRun(apprentice, { assignmentId }, { score: 100, passed: true });
  await cutSampleRun(apprentice, {}, { score: 50, passed: false });

  const seen = await instructor.ask('getRun', { runId });
  expect(seen.assessment).toMatchObject({ sealed: true, assignmentId, decision: null });
  expect(seen.score).toBeLessThan(50);
  expect(seen.passed).toBe(false);
  expect(seen.finalDigest).not.toBe('00ff00ff00ff00ff');
  expect(seen.scoreRecord?.measures.length).toBeGreaterThan(3);

  const own = await apprentice.ask('getRun', { runId });
  expect([own.score, own.passed, own.scoreRecord]).toEqual([null, null, null]);
  expect(new Set(weights(own.drillText))).toEqual(new Set([1]));
  expect((await apprentice.ask('listRuns', {})).runs.find((run) => run.id === runId)).toMatchObject({
    score: null,
    passed: null,
  });
  expect((await apprentice.ask('listRuns', { passed: false })).runs.map((run) => run.id)).not.toContain(runId);
  expect(await apprentice.refusal('exportRun', { runId })).toMatch(/^forbidden: The file of an assessment/);
  expect((await apprentice.ask('submitRun', { runId })).score).toBeNull();
  expect((await apprentice.ask('listDue', { personId: ids.apprentice })).due[0]?.drills[0]).toMatchObject({
    bestScore: null,
    passed: null,
    submittedRunId: runId,
  });
  expect((await apprentice.ask('listStandings', { personId: ids.apprentice })).standings).toEqual([
    { drillId, tries: 2, bestScore: 50, passed: false },
  ]);
  const { techniques } = await apprentice.ask('getProgress', { personId: ids.apprentice });
  expect(techniques.flatMap((technique) => technique.runs.map((run) => run.score))).toEqual([50]);
  const { techniques: all } = await instructor.ask('getProgress', { personId: ids.apprentice });
  expect(all.flatMap((technique) => technique.runs)).toHaveLength(2);
});

test('how the measures stand tells an apprentice nothing of an assessment before it is decided, and all of it after', async () => {
  const yard = await openYardWithRoles();
  const { instructor, assessor, apprentice, ids } = yard;
  const measures = async (page: TestPage) => (await page.ask('getProgress', { personId: ids.apprentice })).measures;
  for (const score of [50, 60]) await cutSampleRun(apprentice, {}, { score, passed: false });
  const before = await measures(apprentice);
  expect(before).toEqual([{ measureId: 'severance', runs: 2, recentMark: 100 }]);
  const runId = await handInRun(yard);
  expect(await measures(apprentice)).toEqual(before);
  expect((await measures(instructor)).length).toBeGreaterThan(3);
  await assessor.ask('signVerdict', {
    runId,
    decision: 'not-yet-competent',
    reasons: 'Never started on the edge.',
    passphrase: PASSPHRASES.assessor,
  });
  expect(await measures(apprentice)).toEqual(await measures(instructor));
});

test('an assessment that was begun before an update is marked by the core of after it, and kept as cut by that', async () => {
  const folder = temporaryFolder();
  const { host, instructor, apprentice, ids } = await openYardWithRoles({ folder });
  const { drillId } = sampleBegin();
  const { id: assignmentId } = await instructor.ask('assign', {
    title: 'Test',
    drillIds: [drillId],
    personIds: [ids.apprentice],
    cueLevel: 'none',
  });
  const { runId } = await apprentice.ask('beginRun', { ...sampleBegin(), assignmentId });
  await apprentice.ask('appendToRun', sampleChunk(runId, 0));
  await host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.exec("update runs set core_version = '1.0.0'");
  records.close();
  const after = await openTestHost({ folder });
  await after.ask('signIn', { personId: ids.apprentice });
  expect((await after.ask('finishRun', sampleFinish(runId, CHUNK_TICKS))).coreVersion).toBe(CORE_VERSION);
  await after.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  expect(await checkOf(after, runId)).toMatchObject({ trust: 'same' });
});
