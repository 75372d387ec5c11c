import { expect, test } from 'vitest';
import type { Reply } from '../../electron/contract.ts';
import { nextDrill } from '../../electron/host/due-drills.ts';
import { CORE_VERSION } from '../../sim-core/index.ts';
import { cutSampleRun } from './cut-sample-run.ts';
import { CHUNK_TICKS, SAMPLE_DRILL, sampleBegin, sampleChunk, sampleFinish } from './sample-hand.ts';
import { openYardWithRoles } from './yard-with-roles.ts';

const OTHER_DRILL = 'cradle-gusset-straight-10';

async function openClass() {
  const yard = await openYardWithRoles();
  const group = await yard.instructor.ask('saveGroup', { groupId: null, name: 'Early shift', memberIds: [yard.ids.apprentice] });
  return { ...yard, group };
}

test('groups are made, renamed and filled; a taken name and a stranger are refused whole', async () => {
  const { instructor, ids, group } = await openClass();
  const both = [ids.apprentice, ids.otherApprentice];
  await instructor.ask('saveGroup', { groupId: group.id, name: 'Late shift', memberIds: [...both, ids.apprentice] });
  expect((await instructor.ask('listGroups', {})).groups).toEqual([{ id: group.id, name: 'Late shift', memberIds: both }]);
  expect(await instructor.refusal('saveGroup', { groupId: null, name: 'Late shift', memberIds: [] })).toMatch(/^conflict/);
  expect(await instructor.refusal('saveGroup', { groupId: null, name: 'a|b', memberIds: [] })).toMatch(
    /^bad-request: .*without \|/,
  );
  const stranger = '00000000-0000-4000-8000-000000000000';
  expect(await instructor.refusal('saveGroup', { groupId: group.id, name: 'Gone', memberIds: [stranger] })).toMatch(/^not-found/);
  expect((await instructor.ask('listGroups', {})).groups[0]).toMatchObject({ name: 'Late shift', memberIds: both });
  expect((await instructor.ask('listLedger', { kinds: ['group'] })).total).toBe(2);
});

test('a deleted group leaves its members; what was assigned to it alone is withdrawn, what is for others too stays for them', async () => {
  const { instructor, assessor, apprentice, otherApprentice, ids, group } = await openClass();
  const assign = (title: string, personIds: string[]) =>
    instructor.ask('assign', { title, drillIds: [SAMPLE_DRILL], groupIds: [group.id], personIds });
  const alone = await assign('For the group', []);
  const shared = await assign('For both', [ids.otherApprentice]);
  const before = await assign('Over before', []);
  await instructor.ask('withdrawAssignment', { assignmentId: before.id });
  expect(await assessor.refusal('deleteGroup', { groupId: group.id })).toMatch(/^forbidden/);

  expect(await instructor.ask('deleteGroup', { groupId: group.id })).toEqual({
    withdrawn: [alone.id],
    stayForOthers: [shared.id],
  });
  expect((await instructor.ask('listGroups', {})).groups).toEqual([]);
  expect((await instructor.ask('listPeople', {})).people).toHaveLength(4);
  expect((await apprentice.ask('listDue', { personId: ids.apprentice })).due).toEqual([]);
  expect((await otherApprentice.ask('listDue', { personId: ids.otherApprentice })).due).toHaveLength(1);
  const { assignments } = await instructor.ask('listAssignments', {});
  const shown = Object.fromEntries(
    assignments.map((one) => [one.title, [one.groupIds, one.personIds, one.withdrawnAt !== null]]),
  );
  expect(shown).toEqual({
    'For the group': [[], [ids.apprentice], true],
    'For both': [[], [ids.otherApprentice], false],
    'Over before': [[], [ids.apprentice], true],
  });
  const { entries } = await instructor.ask('listLedger', { kinds: ['group', 'assignment'] });
  expect(entries.slice(0, 2).map(({ who, subject, body }) => [who, subject, body.change])).toEqual([
    [ids.instructor, group.id, 'deleted'],
    [ids.instructor, alone.id, 'withdrawn'],
  ]);
  expect(entries[0]?.body).toMatchObject({ name: 'Early shift', members: [ids.apprentice] });
  expect(await instructor.refusal('deleteGroup', { groupId: group.id })).toMatch(/^not-found/);
  // The name is free again.
  await instructor.ask('saveGroup', { groupId: null, name: 'Early shift', memberIds: [] });
});

test('an assignment to a group is due for its members, whoever they are at the time', async () => {
  const { instructor, apprentice, otherApprentice, ids, group } = await openClass();
  const assignment = await instructor.ask('assign', {
    title: 'Week 1',
    drillIds: [SAMPLE_DRILL, OTHER_DRILL],
    groupIds: [group.id],
    dueAt: '2030-02-01T00:00:00.000Z',
  });
  await instructor.ask('assign', {
    title: 'Extra',
    drillIds: [SAMPLE_DRILL],
    personIds: [ids.apprentice],
    dueAt: '2030-01-01T00:00:00.000Z',
  });
  const { due } = await apprentice.ask('listDue', { personId: ids.apprentice });
  expect(due.map((one) => one.title)).toEqual(['Extra', 'Week 1']);
  expect(due[1]?.drills.map((drill) => [drill.drillId, drill.used, drill.left, drill.passed])).toEqual([
    [SAMPLE_DRILL, 0, null, false],
    [OTHER_DRILL, 0, null, false],
  ]);
  expect((await otherApprentice.ask('listDue', { personId: ids.otherApprentice })).due).toEqual([]);
  expect(await otherApprentice.refusal('listDue', { personId: ids.apprentice })).toMatch(/^forbidden/);
  await instructor.ask('saveGroup', { groupId: group.id, name: group.name, memberIds: [ids.otherApprentice] });
  expect((await otherApprentice.ask('listDue', { personId: ids.otherApprentice })).due).toHaveLength(1);
  expect((await apprentice.ask('listDue', { personId: ids.apprentice })).due.map((one) => one.title)).toEqual(['Extra']);
  await instructor.ask('withdrawAssignment', { assignmentId: assignment.id });
  expect((await otherApprentice.ask('listDue', { personId: ids.otherApprentice })).due).toEqual([]);
  expect(
    (await instructor.ask('listAssignments', {})).assignments.find((one) => one.id === assignment.id)?.withdrawnAt,
  ).not.toBeNull();
  expect(await instructor.refusal('assign', { title: 'Nobody', drillIds: [SAMPLE_DRILL] })).toMatch(/^conflict/);
});

test('attempts are counted; a run for an assignment that is not for this person or drill is refused', async () => {
  const { instructor, apprentice, otherApprentice, ids } = await openClass();
  const { id: assignmentId } = await instructor.ask('assign', {
    title: 'Two tries',
    drillIds: [SAMPLE_DRILL],
    personIds: [ids.apprentice],
    attempts: 2,
  });
  const begin = { drillId: SAMPLE_DRILL, assignmentId };
  await cutSampleRun(apprentice, begin, { score: 40, passed: false });
  // Of three that begin at once, two over the limit, one gets the attempt that is left.
  const atOnce = await Promise.all(
    Array.from({ length: 3 }, () => apprentice.call('beginRun', { ...sampleBegin(), assignmentId })),
  );
  const begun = atOnce.flatMap((answer) => (answer.ok ? [(answer.reply as Reply<'beginRun'>).runId] : []));
  expect(begun).toHaveLength(1);
  const last = begun[0] as string;
  await apprentice.ask('appendToRun', sampleChunk(last, 0));
  const finish = sampleFinish(last, CHUNK_TICKS);
  await apprentice.ask('finishRun', { ...finish, score: { ...finish.score, score: 70 } });
  const refusal = async (page: typeof apprentice, change: object) =>
    await cutSampleRun(page, { ...begin, ...change }).catch(String);
  expect(await refusal(apprentice, {})).toContain('All 2 attempts');
  expect(await refusal(apprentice, { drillId: OTHER_DRILL })).toContain('is not part of the assignment');
  expect(await refusal(otherApprentice, {})).toContain('is for somebody else');
  const { due } = await apprentice.ask('listDue', { personId: ids.apprentice });
  expect(due[0]?.drills[0]).toMatchObject({ used: 2, left: 0, bestScore: 70, passed: true });
  expect(due[0]?.nextDrillHash).toBeNull();
  // Attempts are used up by cutting: what was cut within them can be handed in, until nobody waits for it any more.
  const reasons = async () => (await apprentice.ask('checkHandIn', { runIds: [last] })).reasons;
  expect(await reasons()).toEqual([{ runId: last, reason: null }]);
  await instructor.ask('withdrawAssignment', { assignmentId });
  expect((await reasons())[0]?.reason).toMatch(/"Two tries" was withdrawn/);
  expect(await apprentice.refusal('submitRun', { runId: last })).toMatch(/^conflict: The assignment "Two tries" was withdrawn/);
});

test('what comes next: mixed takes turns, as listed goes on until it is done', () => {
  const drill = (name: string, lastAt: string | null, passed = false) => ({
    drillId: name,
    drillHash: name,
    title: name,
    technique: 'pierce',
    used: 0,
    left: null,
    bestScore: null,
    passed,
    submittedRunId: null,
    decision: null,
    lastAt,
  });
  const drills = [drill('a', '2030-01-03'), drill('b', '2030-01-01'), drill('c', '2030-01-02')];
  expect(nextDrill(drills, 'mixed')).toBe('b');
  expect(nextDrill(drills, 'as-listed')).toBe('a');
  expect(nextDrill([...drills, drill('d', null)], 'mixed')).toBe('d');
  expect(nextDrill([drill('a', null, true), drill('b', '2030-01-01')], 'mixed')).toBe('b');
  expect(nextDrill([{ ...drill('a', '2030-01-01'), left: 0 }], 'mixed')).toBeNull();
  expect(nextDrill([{ ...drill('a', '2030-01-01', true), decision: 'competent', submittedRunId: 'r' }], 'as-listed')).toBeNull();
});

test('runs are handed in once and queue up oldest first; filters and pages', async () => {
  const { instructor, assessor, apprentice, otherApprentice, ids, group } = await openClass();
  const first = await cutSampleRun(apprentice);
  const second = await cutSampleRun(apprentice);
  const other = await cutSampleRun(otherApprentice, { drillId: OTHER_DRILL });
  expect(await otherApprentice.refusal('submitRun', { runId: first })).toMatch(/^forbidden/);
  expect(await instructor.refusal('submitRun', { runId: first })).toMatch(/^forbidden/);
  const mayHandIn = async (...runIds: string[]) =>
    (await apprentice.ask('checkHandIn', { runIds })).reasons.map(({ reason }) => reason);
  expect(await mayHandIn(first, second)).toEqual([null, null]);
  expect(await otherApprentice.refusal('checkHandIn', { runIds: [other, first] })).toMatch(/^forbidden/);
  expect(await instructor.refusal('checkHandIn', { runIds: [first] })).toMatch(/^forbidden/);
  const submitted = await apprentice.ask('submitRun', { runId: first });
  expect(await mayHandIn(first, second)).toEqual([
    'This run is handed in already.',
    'Another run of this drill is waiting for its decision.',
  ]);
  expect(submitted.assessment?.submittedAt).not.toBeNull();
  expect(await apprentice.ask('submitRun', { runId: first })).toEqual(submitted);
  expect(await apprentice.refusal('submitRun', { runId: second })).toMatch(/^conflict: Another run of this drill is waiting/);
  await otherApprentice.ask('submitRun', { runId: other });
  const { runId: open } = await apprentice.ask('beginRun', {
    drillId: OTHER_DRILL,
    seed: 1,
    personId: null,
    hand: { kind: 'mouse', name: 'mouse' },
    coreVersion: CORE_VERSION,
  });
  expect(await apprentice.refusal('submitRun', { runId: open })).toMatch(/^conflict: Only a finished run/);
  expect(await mayHandIn(open)).toEqual(['Only a finished run can be handed in.']);

  const queue = await assessor.ask('listQueue', {});
  expect([queue.total, queue.rows.map((row) => row.run.id)]).toEqual([2, [first, other]]);
  expect((await assessor.ask('listQueue', { limit: 1, offset: 1 })).rows.map((row) => row.run.id)).toEqual([other]);
  const found = async (filter: object) => (await assessor.ask('listQueue', filter)).rows.map((row) => row.run.id);
  expect(await found({ groupId: group.id })).toEqual([first]);
  expect(await found({ drillId: OTHER_DRILL })).toEqual([other]);
  expect(await found({ personId: ids.otherApprentice })).toEqual([other]);
  expect(await found({ measureId: 'stand-off' })).toEqual([]);
  expect(await found({ state: 'decided' })).toEqual([]);
  expect((await instructor.ask('listLedger', { kinds: ['run-submitted'] })).total).toBe(2);
});

test('of runs that are handed in at the same moment one is taken, and the ledger has one entry', async () => {
  const { instructor, apprentice } = await openYardWithRoles();
  const [first, second] = [await cutSampleRun(apprentice), await cutSampleRun(apprentice)];
  const answers = await Promise.all([first, second, first].map((runId) => apprentice.call('submitRun', { runId })));
  expect(answers.map((answer) => (answer.ok ? 'taken' : answer.error.message))).toEqual([
    'taken',
    'Another run of this drill is waiting for its decision.',
    'taken',
  ]);
  expect((await instructor.ask('listLedger', { kinds: ['run-submitted'] })).total).toBe(1);
});
