// A term of a large yard: 10,000 runs of 200 people. What lists and views cost the host is told by the benchmark (tests/bench/large-yard.ts).
import { expect, test } from 'vitest';
import { fillYard } from './fill-yard.ts';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

test('10,000 runs of 200 people: lists, queue, class view and own progress', async () => {
  const folder = temporaryFolder();
  const { host, instructor, ids } = await openYardWithRoles({ folder });
  // Assigning keeps a version of each drill, for the runs to refer to.
  const { drills } = await instructor.ask('listDrills', {});
  await instructor.ask('assign', {
    title: 'All',
    drillIds: drills.map((drill) => drill.id).slice(0, 25),
    personIds: [ids.apprentice],
  });
  await host.close();
  fillYard(folder, { people: 200, runs: 10_000 });

  const again = await openTestHost({ folder });
  await again.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  const view = await again.ask('getClassView', { groupId: null });
  expect(view.people).toHaveLength(202);
  expect(view.people.reduce((sum, person) => sum + person.finished, 0)).toBe(10_000);
  expect(view.drills).toHaveLength(25);
  expect(view.drills.every((drill) => drill.worstMeasure !== null)).toBe(true);
  expect(view.people.filter((person) => person.stuck?.measureId).length).toBeGreaterThan(0);
  expect(view.curves[0]?.weeks.length).toBe(8);
  const { groups } = await again.ask('listGroups', {});
  const groupId = groups[3]?.id ?? '';
  const one = await again.ask('getClassView', { groupId });
  expect(one.people).toHaveLength(20);
  const personId = one.people[0]?.personId ?? '';
  const measureId = one.people.find((person) => person.stuck)?.stuck?.measureId ?? 'stand-off';
  expect((await again.ask('listQueue', { state: 'waiting' })).total).toBe(500);

  const newest = await again.ask('listRuns', {});
  expect(newest.total).toBe(10_000);
  const oldest = await again.ask('listRuns', { offset: newest.total - 50 });
  expect(oldest.runs).toHaveLength(50);
  expect(newest.runs.map(({ id }) => id)).not.toContain(oldest.runs[0]?.id);
  const own = await again.ask('listRuns', { personId });
  expect(own.total).toBe(view.people.find((person) => person.personId === personId)?.finished);
  expect(own.runs.every((run) => run.personId === personId)).toBe(true);
  const passed = await again.ask('listRuns', { drillId: drills[0]?.id, passed: true });
  expect(passed.runs.length).toBeGreaterThan(0);
  expect(passed.runs.every((run) => run.passed && run.drillId === drills[0]?.id)).toBe(true);
  const ofGroup = await again.ask('listQueue', { state: 'all', groupId });
  expect(ofGroup.total).toBeGreaterThan(0);
  expect(ofGroup.total).toBeLessThan((await again.ask('listQueue', { state: 'all' })).total);
  expect((await again.ask('listQueue', { state: 'all', measureId })).total).toBeGreaterThan(0);
  const standings = await again.ask('listStandings', { personId: null });
  expect(standings.standings.length).toBeGreaterThan(0);
  expect((await again.ask('getProgress', { personId })).techniques.length).toBeGreaterThan(0);
});
