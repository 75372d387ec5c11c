// A button that its own press makes useless for a while, or for good, keeps the keyboard where it was.
import { expect, test } from '@playwright/test';
import { arriveAs, staffYard } from './handed-in-run.ts';
import { hold, pressTwice } from './hold-calls.ts';
import { callHost, importRun, openRun, runOfHand } from './imported-run.ts';
import { openApp } from './page.ts';
import { inYard } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

test('a dialog says what it looks up before its button can do anything, and the button keeps the focus while it works', async ({
  page,
}) => {
  await inYard(async (host) => {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 1);
    await callHost(page, 'saveGroup', { groupId: null, name: 'Noon watch', memberIds: yard.apprenticeIds });
    await arriveAs(page, yard.instructorId, 'people');
    const looked = await hold(page, 'listAssignments');
    const gone = await hold(page, 'deleteGroup');

    await page.getByRole('button', { name: 'Delete the group Noon watch' }).press('Enter');
    const dialog = page.getByRole('dialog');
    const keep = dialog.locator('button[class*="action-main"]');
    await expect(dialog.getByRole('status')).toContainText(['Looking up what is given to this group']);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await expect(keep).toBeFocused();
    await page.keyboard.press('Enter');
    looked.letGo();
    await expect(dialog.getByRole('status')).toContainText(['Nothing that is assigned now depends on it.']);
    await expect(keep).toBeFocused();
    expect(gone.asked()).toBe(0);

    await pressTwice(page, keep, gone);
    await expect(dialog.getByRole('status').last()).toHaveText('One moment…');
    gone.letGo('Another copy of Kerfhand is at these records.');
    await expect(dialog.getByRole('alert')).toContainText('Another copy');
    await expect(keep).toBeEnabled();
    await expect(keep).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { name: 'Groups' })).toBeFocused();
    expect(complaints).toEqual([]);
  });
});

test('a dialog that cannot look up what it is to tell says so itself', async ({ page }) => {
  await inYard(async (host) => {
    await openApp(page, host);
    const yard = await staffYard(page, 0, 1);
    await callHost(page, 'saveGroup', { groupId: null, name: 'Noon watch', memberIds: yard.apprenticeIds });
    await arriveAs(page, yard.instructorId, 'people');
    const looked = await hold(page, 'listAssignments');
    await page.getByRole('button', { name: 'Delete the group Noon watch' }).press('Enter');
    looked.letGo('The disk is full.');
    const dialog = page.getByRole('dialog');
    await expect(dialog.getByRole('alert')).toContainText('The disk is full.');
    await expect(dialog).not.toContainText('Looking up');
  });
});

test('a button that assigns keeps the focus while it does, and after it was in vain', async ({ page }) => {
  await inYard(async (host) => {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 2);
    await arriveAs(page, yard.instructorId, 'assignments/new');
    await page.getByRole('button', { name: 'All in sight: Drills' }).press('Enter');
    await page.getByRole('button', { name: 'All in sight: Apprentices' }).press('Enter');
    await page.getByLabel('Title').fill('Everything');
    const assigned = await hold(page, 'assign');
    const assign = page.locator('.assign-form button[type="submit"], .assign-form button.action-main');
    await pressTwice(page, assign, assigned);
    assigned.letGo('Another copy of Kerfhand is at these records.');
    await expect(page.getByRole('alert')).toContainText('Another copy');
    await expect(assign).toBeEnabled();
    await expect(assign).toBeFocused();
    expect(complaints).toEqual([]);
  });
});

test('the record is checked again by a button that keeps the focus', async ({ page }) => {
  await inYard(async (host) => {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await arriveAs(page, yard.instructorId, 'record');
    await expect(page.locator('[data-chain="whole"]')).toBeVisible();
    const checked = await hold(page, 'checkLedger');
    const check = page.getByRole('button', { name: 'Check again' });
    await pressTwice(page, check, checked);
    checked.letGo();
    await expect(page.locator('[data-chain="whole"]')).toBeVisible();
    await expect(check).toBeEnabled();
    await expect(check).toBeFocused();
    expect(complaints).toEqual([]);
  });
});

test('the last step back leaves the focus on its button, which is passed over later', async ({ page }) => {
  await inYard(async (host) => {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await arriveAs(page, yard.instructorId, `build/${DRILL}`);
    await page.getByRole('button', { name: 'Support', exact: true }).press('Enter');
    const undo = page.getByRole('button', { name: 'Step back' });
    await undo.press('Enter');
    // There is nothing left to undo.
    await expect(undo).toBeDisabled();
    await expect(undo).toBeFocused();
    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Step on' })).toBeFocused();
    // Whoever comes by key again passes it over.
    await page.keyboard.press('Shift+Tab');
    await expect(undo).not.toBeFocused();
    expect(complaints).toEqual([]);
  });
});

test('checking a run again hands the focus to the words that say how it goes', async ({ page }) => {
  await inYard(async (host) => {
    await openApp(page, host);
    const yard = await staffYard(page, 1, 0);
    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    const runId = await importRun(page, runOfHand(DRILL, null, 5));
    const check = await hold(page, 'startCheck');
    await openRun(page, runId);
    await page.getByRole('tab', { name: 'Verdict' }).click();
    await expect(page.locator('[data-trust="checking"]')).toBeVisible();
    check.letGo('The disk is full.');
    await page.getByRole('button', { name: 'Check it again' }).press('Enter');
    await expect(page.locator('.trust-words')).toBeFocused();
    await expect(page.locator('[data-trust="same"]')).toBeVisible({ timeout: 60_000 });
    await expect(page.locator('.trust-words')).toBeFocused();
  });
});
