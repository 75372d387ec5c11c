import { expect, test } from 'vitest';
import { openYardWithRoles } from './yard-with-roles.ts';

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

  const file = await instructor.ask('exportRoster', {});
  const again = file.outcome === 'text' ? file.text : '';
  expect((await instructor.ask('previewRoster', { text: again })).counts).toEqual({ new: 0, changed: 0, unchanged: 5, wrong: 0 });
  expect(await instructor.ask('importRoster', { text: again })).toMatchObject({ new: 0, changed: 0 });
  expect((await instructor.ask('listLedger', { kinds: ['import'] })).total).toBe(1);
  expect(await instructor.refusal('importRoster', { text: 'no,roster\n1,2\n' })).toMatch(
    /^bad-file: The heading line has no column "role"/,
  );
});
