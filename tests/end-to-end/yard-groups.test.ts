import { expect, test } from '@playwright/test';
import type { Assignment, Person } from '../../electron/contract.ts';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

test('a group is deleted by keyboard alone, after the page has said what goes with it', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await callHost(page, 'makeFirstInstructor', { passphrase: 'slipway before noon' });
    const first = await callHost<Person>(page, 'createPerson', { role: 'apprentice' });
    const second = await callHost<Person>(page, 'createPerson', { role: 'apprentice' });
    const ask = { groupId: null, name: 'Noon watch', memberIds: [first.id] };
    const { id: groupId } = await callHost<{ id: string }>(page, 'saveGroup', ask);
    await callHost(page, 'saveGroup', { ...ask, name: 'Second dog watch of the autumn term' });
    const drillIds = ['hanger-tab-straight-6'];
    await callHost(page, 'assign', { title: 'Noon lines', drillIds, groupIds: [groupId] });
    await callHost(page, 'assign', { title: 'Lines for two', drillIds, groupIds: [groupId], personIds: [second.id] });
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('link', { name: 'People' }).click();

    const open = page.getByRole('button', { name: 'Delete the group Noon watch' });
    await open.press('Enter');
    const dialog = page.getByRole('dialog', { name: 'Delete the group “Noon watch”?' });
    await expect(dialog).toContainText('Given to this group alone, and withdrawn with it: “Noon lines”.');
    await expect(dialog).toContainText('Given to others as well, and staying for them: “Lines for two”.');
    await expectSoundInBothLooks(page, 'deleting a group');
    await page.keyboard.press('Escape');
    await expect(open).toBeFocused();
    await open.press('Enter');
    const keep = page.getByRole('button', { name: 'Delete the group', exact: true });
    // It waits for what is given to the group to be looked up again.
    await expect(keep).toBeEnabled();
    await keep.press('Enter');
    await expect(page.getByText('The group Noon watch is deleted.')).toBeVisible();
    await expect(open).toHaveCount(0);
    // The keyboard goes on where the group was.
    await expect(page.getByRole('heading', { name: 'Groups' })).toBeFocused();
    await expectSoundInBothLooks(page, 'people without that group');
    const { assignments } = await callHost<{ assignments: Assignment[] }>(page, 'listAssignments', {});
    expect(assignments.map((one) => [one.title, one.withdrawnAt !== null, one.personIds])).toEqual([
      ['Lines for two', false, [second.id]],
      ['Noon lines', true, [first.id]],
    ]);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
