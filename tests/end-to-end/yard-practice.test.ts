import { expect, test } from '@playwright/test';
import { tryTheTrigger } from './hands.ts';
import { callHost } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const TITLE = 'Trailer hanger tab';

test('a run cut for an assignment takes an attempt, draws a curve, is handed in, and counts in the class with what it used', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await callHost(page, 'makeFirstInstructor', { passphrase: 'slipway before noon' });
    const { id: personId } = await callHost<{ id: string }>(page, 'createPerson', { role: 'apprentice' });
    const assigned = { title: 'Tabs', drillIds: ['hanger-tab-straight-6'], personIds: [personId], attempts: 3 };
    await callHost(page, 'assign', assigned);
    await callHost(page, 'signOut', {});
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('option', { name: 'Apprentice 01' }).click();
    await page
      .locator('.next-on-bench')
      .getByRole('button', { name: new RegExp(TITLE) })
      .click();
    await expect(page.getByText('3 of 3 left')).toBeVisible();
    await page.getByRole('button', { name: 'To the plate' }).click({ timeout: 60_000 });
    await page.locator('.bench[data-tier]:not([data-tier=""])').waitFor();
    await tryTheTrigger(page);
    await reviewReady(page);
    await page.getByRole('button', { name: 'Home' }).click();

    const due = page.locator('[data-due]');
    await expect(due).toContainText('tried once');
    await expect(due).toContainText('2 attempts left');
    await expect(page.getByRole('heading', { name: 'Edge start' }).first()).toBeVisible();
    await expect(page.getByText('One run so far; the curve begins with the second.')).toBeVisible();
    const row = page.locator('[data-run-state="finished"]');
    await row.getByRole('button', { name: /^Hand in/ }).click();
    await expect(due).toContainText('handed in, waiting for the assessor');
    await expect(row.getByRole('button', { name: /^Hand in/ })).toHaveCount(0);
    await page.getByRole('button', { name: 'Sign out' }).click();

    await page.getByLabel('Passphrase').fill('slipway before noon');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('link', { name: 'Class' }).click();
    await expect(page.getByText('1 of 1 have practised')).toBeVisible();
    const line = page.locator(`[data-person="${personId}"]`);
    await expect(line).toContainText('0 of 1');
    // Parts, plate, gas and time of a real shop: more than nothing.
    await expect(line).toContainText(/¤\s(?!0\.00)\d+\.\d\d/);
  } finally {
    await host.stop();
    folder.remove();
  }
});
