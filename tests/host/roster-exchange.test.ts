import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { openTestHost, temporaryFolder } from './open-test-host.ts';
import { SAMPLE_DRILL } from './sample-hand.ts';
import { openYardWithRoles, PASSPHRASES } from './yard-with-roles.ts';

const ROSTER = 'role,number,groups\napprentice,1,Early shift|Welding bay\napprentice,7,Late shift\nassessor,9,\napprentice,x,\n';

test('a roster is looked at without writing, taken in whole, and comes out so that nothing changes', async () => {
  const { instructor, ids } = await openYardWithRoles();
  const preview = await instructor.ask('previewRoster', { text: ROSTER });
  expect(preview.rows.map((row) => row.kind)).toEqual(['changed', 'new', 'wrong', 'wrong']);
  expect(preview.newGroups.toSorted()).toEqual(['Early shift', 'Late shift', 'Welding bay']);
  expect((await instructor.ask('listPeople', {})).people).toHaveLength(4);
  expect((await instructor.ask('listGroups', {})).groups).toEqual([]);

  expect(await instructor.ask('importRoster', { text: ROSTER })).toEqual({ new: 1, changed: 1, unchanged: 0, wrong: 2 });
  const { people } = await instructor.ask('listPeople', {});
  const seventh = people.find((person) => person.name === 'Apprentice 07');
  expect((await instructor.ask('listGroups', {})).groups.map((group) => [group.name, group.memberIds])).toEqual([
    ['Early shift', [ids.apprentice]],
    ['Late shift', [seventh?.id]],
    ['Welding bay', [ids.apprentice]],
  ]);
  expect((await instructor.ask('listLedger', { kinds: ['import'] })).total).toBe(1);

  // However an accent was typed, the group is the same one in the file.
  await instructor.ask('saveGroup', { groupId: null, name: 'E\u0301quipe', memberIds: [ids.otherApprentice] });
  const file = await instructor.ask('exportRoster', {});
  const again = file.outcome === 'text' ? file.text : '';
  expect((await instructor.ask('previewRoster', { text: again })).counts).toEqual({ new: 0, changed: 0, unchanged: 5, wrong: 0 });
  expect(await instructor.ask('importRoster', { text: again })).toMatchObject({ new: 0, changed: 0 });
  expect((await instructor.ask('listLedger', { kinds: ['import'] })).total).toBe(1);
  expect(await instructor.refusal('importRoster', { text: 'no,roster\n1,2\n' })).toMatch(
    /^bad-file: The heading line has no column "role"/,
  );
});

test('a group whose accents were kept apart is the one of the composed name, for a roster and for a new group', async () => {
  const folder = temporaryFolder();
  const { host, instructor, ids } = await openYardWithRoles({ folder });
  const { id: groupId } = await instructor.ask('saveGroup', { groupId: null, name: '\u00c9quipe', memberIds: [ids.apprentice] });
  await host.close();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.exec("update groups set name = 'E\u0301quipe'");
  records.close();
  const again = await openTestHost({ folder });
  await again.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  const text = 'role,number,groups\napprentice,1,\u00c9quipe\napprentice,2,E\u0301quipe\n';
  const preview = await again.ask('previewRoster', { text });
  expect([preview.rows.map((row) => row.kind), preview.newGroups]).toEqual([['unchanged', 'changed'], []]);
  await again.ask('importRoster', { text });
  const { groups } = await again.ask('listGroups', {});
  expect(groups.map((group) => [group.id, group.memberIds])).toEqual([[groupId, [ids.apprentice, ids.otherApprentice]]]);
  expect(await again.refusal('saveGroup', { groupId: null, name: '\u00c9quipe', memberIds: [] })).toMatch(/^conflict: /);
  const kept = await again.ask('saveGroup', { groupId, name: 'E\u0301quipe', memberIds: [ids.apprentice] });
  expect(kept.name).toBe('\u00c9quipe');
});

test('a group as large as a roster is answered, kept and worked with; a roster that makes one larger is refused whole', async () => {
  const folder = temporaryFolder();
  const { host, ids } = await openYardWithRoles({ folder });
  await host.close();
  const most = 10_000;
  const groupId = randomUUID();
  const records = new DatabaseSync(path.join(folder, 'records.db'));
  records.prepare("insert into groups values (?, 'Everybody', '2030-01-31T09:45:00.000Z')").run(groupId);
  records.exec('begin');
  const person = records.prepare("insert into people values (?, 'apprentice', ?, '2030-01-31T09:45:00.000Z')");
  const member = records.prepare('insert into group_members values (?, ?)');
  for (let number = 101; number <= 100 + most; number++) {
    const id = randomUUID();
    person.run(id, number);
    member.run(groupId, id);
  }
  records.exec('commit');
  records.close();

  const log: string[] = [];
  const page = await openTestHost({ folder, log: (line) => log.push(line) });
  await page.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  const [group] = (await page.ask('listGroups', {})).groups;
  expect(group?.memberIds).toHaveLength(most);
  await page.ask('saveGroup', { groupId, name: 'All of us', memberIds: group?.memberIds ?? [] });
  const assignment = await page.ask('assign', { title: 'All', drillIds: [SAMPLE_DRILL], personIds: group?.memberIds });
  expect(assignment.personIds).toHaveLength(most);
  const text = 'role,number,groups\napprentice,1,All of us\n';
  expect(await page.refusal('importRoster', { text })).toBe(
    'too-large: The group "All of us" would have 10001 members; a group has at most 10000. Nothing was taken in.',
  );
  expect((await page.ask('listGroups', {})).groups[0]?.memberIds).toHaveLength(most);

  // What is longer than an answer may be says nothing against the records.
  expect(log).toEqual([]);
  await page.close();
  const changed = new DatabaseSync(path.join(folder, 'records.db'));
  changed.prepare('update groups set name = ?').run('x'.repeat(201));
  changed.close();
  const again = await openTestHost({ folder, log: (line) => log.push(line) });
  await again.ask('signIn', { personId: ids.instructor, passphrase: PASSPHRASES.instructor });
  expect(await again.refusal('listGroups', {})).toMatch(/^too-large: The answer to the call listGroups would be longer/);
  expect(log).toHaveLength(1);
});
