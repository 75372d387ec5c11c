import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const MARK = 'Invented people; nothing here touches your own yard.';

const mark = (page: Page) => page.getByRole('complementary', { name: 'Demo yard.' });

/** From the settings of any room of the register. */
async function openDemoDialog(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'How it looks' }).click();
  await page.getByRole('button', { name: 'Open, leave or remove it' }).click();
  await page.getByRole('heading', { name: 'The demo yard', exact: true }).waitFor();
}

test('first start: the demo yard is opened, looked round in as instructor and apprentice, left, and removed', async ({
  page,
}) => {
  test.setTimeout(420_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await page.getByRole('heading', { name: 'Nobody is in this yard yet' }).waitFor();
    await expect(page.getByText('24 apprentices in 3 groups')).toBeVisible();
    await expectSoundInBothLooks(page, 'first start');
    await page.getByRole('button', { name: 'Open the demo yard' }).press('Enter');

    await expect(mark(page)).toContainText(MARK, { timeout: 30_000 });
    await expect(page.getByRole('heading', { name: 'Who is at this bench?' })).toBeVisible();
    await expect(page.getByText('slipway-demo-assessor')).toBeVisible();
    await expectSoundInBothLooks(page, 'who is at this bench, demo yard');
    await page.getByRole('button', { name: 'Sign in as Instructor 01' }).click();
    await page.getByRole('link', { name: 'Class' }).click();
    await expect(page.getByText(/^24 of 24 have practised/)).toBeVisible();
    await expect(page.getByRole('rowheader', { name: 'Apprentice 07' })).toBeVisible();
    await expect(mark(page)).toBeVisible();
    await expectSoundInBothLooks(page, 'class, demo yard');
    await page.getByRole('link', { name: 'Assigned' }).click();
    await expect(page.locator('[data-assignment]')).toHaveCount(8);
    await page.getByRole('button', { name: 'Sign out' }).click();

    // The typed way in works as in any yard.
    await page.getByRole('option', { name: 'Apprentice 11' }).click();
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Apprentice 11');
    await expect(page.locator('[data-due]').first()).toBeVisible();

    // A room with a scene bears the mark as well, and all of it is in the window, however long the title of the drill.
    await page
      .getByRole('button', { name: /^Replay/ })
      .first()
      .click();
    await page.locator('.review').waitFor();
    await expect(mark(page)).toBeVisible();
    const below = await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
    expect(below).toBeLessThanOrEqual(0);
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(sideways).toBeLessThanOrEqual(0);

    await mark(page).getByRole('button', { name: 'Leave the demo yard' }).click();
    await page.getByRole('heading', { name: 'Nobody is in this yard yet' }).waitFor();
    await expect(mark(page)).toHaveCount(0);
    expect((await callHost<{ people: unknown[] }>(page, 'listPeople', {})).people).toEqual([]);
    expect((await callHost<{ total: number }>(page, 'listRuns', {})).total).toBe(0);

    await openDemoDialog(page);
    await expectSoundInBothLooks(page, 'demo yard dialog');
    const dialog = page.getByRole('dialog', { name: 'The demo yard' });
    await dialog.getByRole('button', { name: 'Remove it from this machine' }).click();
    await expect(dialog).toHaveCount(0);
    await expect(page.getByRole('button', { name: 'Remove it from this machine' })).toHaveCount(0);
    expect((await callHost<{ state: string }>(page, 'getDemoYard', {})).state).toBe('absent');

    // The other way of a first start.
    await page.getByRole('button', { name: 'Begin your own yard' }).click();
    await page.getByLabel(/^Passphrase/).fill('bollard and hawser');
    await page.getByLabel('The same passphrase again').fill('bollard and hawser');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Instructor 01 is signed in' }).waitFor();
    await expect(page.getByRole('heading', { name: 'Nobody is in this yard yet' })).toHaveCount(0);
    await openDemoDialog(page);
    await page.getByRole('button', { name: 'Open the demo yard' }).click();
    await expect(mark(page)).toBeVisible({ timeout: 30_000 });
    await expect(page.getByRole('heading', { name: 'Who is at this bench?' })).toBeVisible();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
