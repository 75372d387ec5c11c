import { readFile } from 'node:fs/promises';
import { expect, type Page, test } from '@playwright/test';
import { expectSound } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const PASSPHRASE = 'slipway before noon';
const DAY_MS = 86_400_000;

/** Six apprentices in two groups, and one row that nobody can take in. */
const ROSTER = [
  'role,number,groups',
  ...[1, 2, 3, 4, 5, 6].map((number) => `apprentice,${number},${number <= 3 ? 'Morning watch' : 'Noon watch'}`),
  'assessor,7,Noon watch',
].join('\r\n');

const signOut = (page: Page) => page.getByRole('button', { name: 'Sign out' }).click();

async function signInAsInstructor(page: Page): Promise<void> {
  await page.getByLabel('Passphrase').fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('link', { name: 'People' }).waitFor();
}

/** A day as a date field takes it. */
function dayForEntry(atMs: number): string {
  const day = new Date(atMs);
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}

async function makeFirstInstructor(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Make the first instructor' }).click();
  await page.getByLabel(/^Passphrase/).fill(PASSPHRASE);
  await page.getByLabel('The same passphrase again').fill('something else');
  await expect(page.getByText('The two are not the same.')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Make and sign in' })).toBeDisabled();
  await page.getByLabel('The same passphrase again').fill(PASSPHRASE);
  await expectSound(page, 'first instructor');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Instructor 01 is signed in' }).waitFor();
}

async function takeInRoster(page: Page): Promise<void> {
  // An instructor comes to the class first, and while nobody is in it, that is where they are led on.
  await page.getByRole('link', { name: 'Class' }).click();
  await expectSound(page, 'class with nobody in it');
  await page.getByRole('button', { name: 'Add apprentices' }).click();
  await page.getByRole('button', { name: 'Take in a roster' }).click();
  const file = { name: 'roster.csv', mimeType: 'text/csv', buffer: Buffer.from(ROSTER) };
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Choose a file' }).click();
  await (await chooser).setFiles(file);
  await expect(page.locator('[data-roster="new"]')).toHaveCount(6);
  await expect(page.locator('[data-roster="wrong"]')).toContainText('Assessor 07 is not in this yard');
  await expect(page.getByText('Groups that come into being: Morning watch, Noon watch.')).toBeVisible();
  await expectSound(page, 'roster preview');
  // A preview writes nothing: behind the dialog there is still the instructor alone.
  await expect(page.getByText('1 of 1 people')).toBeAttached();
  await page.getByRole('button', { name: 'Take in 6 new' }).click();
  await expect(page.getByText('7 of 7 people')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Change the group Noon watch' })).toBeVisible();
  await expectSound(page, 'people');

  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the roster' }).click();
  const saved = await readFile(await (await download).path(), 'utf8');
  expect(saved.split('\r\n').filter((line) => line.startsWith('apprentice,'))).toHaveLength(6);
  expect(saved).toContain('apprentice,4,Noon watch');
}

async function assignTwoDrills(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Assigned' }).click();
  await page.getByRole('button', { name: 'New assignment' }).click();
  const drills = page.getByRole('listbox', { name: 'Drills' });
  // By keyboard alone: find, go into the list, take the one that is there.
  await page.getByRole('searchbox', { name: 'Find: Drills' }).fill('mudguard');
  await expect(drills.getByRole('option')).toHaveCount(1);
  await drills.getByRole('option').focus();
  await page.keyboard.press('Space');
  await page.getByRole('searchbox', { name: 'Find: Drills' }).fill('hanger tab');
  await drills.getByRole('option', { name: /Trailer hanger tab/ }).click();
  await expect(page.getByText(/^2 of \d+ chosen$/)).toBeVisible();
  await expect(page.getByText('Choose an apprentice, or a group with members.')).toBeVisible();
  await page
    .getByRole('listbox', { name: 'Groups' })
    .getByRole('option', { name: /Noon watch/ })
    .click();
  await page.getByLabel('Title', { exact: true }).fill('First straight lines');
  await page.getByLabel(/^Due by/).fill(dayForEntry(Date.now() - 2 * DAY_MS));
  await expect(page.getByText('The date has gone by.')).toBeVisible();
  await page.getByLabel(/^Due by/).fill(dayForEntry(Date.now() + 3 * DAY_MS));
  await page.getByLabel(/^Attempts/).fill('4');
  await page.getByRole('radio', { name: 'Every other time' }).press('Space');
  await expect(page.getByText('2 drills for 3 apprentices, each counted once.')).toBeVisible();
  await expectSound(page, 'new assignment');
  await page.getByRole('button', { name: 'Assign', exact: true }).click();
  const row = page.locator('[data-assignment]');
  await expect(row).toContainText('group Noon watch');
  await expect(row.getByRole('cell', { name: '4', exact: true })).toBeVisible();
  await expect(row.getByRole('cell', { name: 'every other time' })).toBeVisible();
  await expectSound(page, 'assignments');
}

test('the first instructor takes in a roster and assigns; an apprentice signs in and sees what is due', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    // A yard without a passphrase asks nobody who they are.
    await expect(page.getByRole('button', { name: /Who practises/ })).toBeVisible();
    await makeFirstInstructor(page);
    await takeInRoster(page);
    await assignTwoDrills(page);

    await page.getByRole('link', { name: 'Class' }).click();
    await expect(page.getByText('0 of 6 have practised; 0 are stuck')).toBeVisible();
    await expectSound(page, 'class');
    await signOut(page);

    const numbers = page.getByRole('listbox', { name: /pick your number/ });
    await numbers.getByRole('option').first().focus();
    await expectSound(page, 'who is at this bench');
    await page.keyboard.type('5');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Apprentice 05');
    const due = page.locator('[data-due]');
    await expect(due).toContainText('First straight lines');
    await expect(due).toContainText('0 of 2 done');
    await expect(due.locator('[data-next="true"]')).toHaveCount(1);
    await expect(page.getByRole('region', { name: 'Next on your bench' })).toContainText('drills come in mixed order');
    await expectSound(page, 'own page');
    // What is for instructors is not offered, and an address that somebody remembers does not open it.
    await expect(page.getByRole('link', { name: 'People' })).toHaveCount(0);
    await page.goto(new URL('/#/people', page.url()).href);
    await expect(page.getByRole('heading', { name: 'This room is for instructors.' })).toBeVisible();
    await page.getByRole('link', { name: 'To the first page' }).click();

    await due.getByRole('button', { name: /^Cut it: Mudguard patch/ }).click();
    await expect(page.getByText('4 of 4 left')).toBeVisible({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Home' }).click();
    await signOut(page);

    await page.getByRole('option', { name: 'Apprentice 01' }).click();
    await expect(page.getByText('Nothing is assigned to you.')).toBeVisible();
    await signOut(page);
    await page.getByLabel('Passphrase').fill('not the right one');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await expect(page.getByRole('alert')).toHaveText('That is not the passphrase.');
    await signInAsInstructor(page);
    await page.getByRole('link', { name: 'Assigned' }).click();
    await page.getByRole('button', { name: 'Withdraw the assignment First straight lines' }).click();
    await page.getByRole('button', { name: 'Withdraw', exact: true }).click();
    await expect(page.locator('[data-assignment]')).toContainText(/withdrawn/);
    await signOut(page);
    await page.getByRole('option', { name: 'Apprentice 05' }).click();
    await expect(page.getByText('Nothing is assigned to you.')).toBeVisible();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('of two hundred people only those in sight are drawn, and the last is reached by key', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await makeFirstInstructor(page);
    const numbers = Array.from({ length: 200 }, (_, index) => index + 1);
    const text = ['role,number,groups', ...numbers.map((number) => `apprentice,${number},Year ${number % 8}`)].join('\n');
    await callHost(page, 'importRoster', { text });
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('link', { name: 'People' }).click();
    await expect(page.getByText('201 of 201 people')).toBeVisible();
    const rows = page.getByRole('table', { name: 'People' }).locator('tbody tr[aria-rowindex]');
    expect(await rows.count()).toBeLessThan(80);
    await page.getByRole('region', { name: 'People: all rows' }).focus();
    await page.keyboard.press('End');
    await expect(page.getByRole('rowheader', { name: 'Instructor 01' })).toBeInViewport();
    expect(await rows.count()).toBeLessThan(80);
    // Sorted by group, then the other way round.
    const byGroup = page.getByRole('button', { name: 'Groups', exact: true });
    await byGroup.press('Enter');
    await expect(page.getByRole('columnheader', { name: 'Groups' })).toHaveAttribute('aria-sort', 'ascending');
    await byGroup.press('Enter');
    await page.keyboard.press('Home');
    await page.getByRole('region', { name: 'People: all rows' }).press('Home');
    await expect(rows.first()).toContainText('Year 7');
  } finally {
    await host.stop();
    folder.remove();
  }
});
