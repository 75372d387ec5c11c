import { expect, test } from '@playwright/test';
import type { WhoAmI } from '../../electron/contract.ts';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const PASSPHRASE = 'slipway before noon';

// A minute is the shortest time that can be set.
test.setTimeout(240_000);

test('an instructor who was away signs in again over the page as it was left, with what was typed', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    // The page's own watch goes by the browser's clock; the host's by the machine's, which is not waited for here.
    await page.clock.install();
    const complaints = await openApp(page, host);
    await page.getByRole('button', { name: 'Make the first instructor' }).click();
    await page.getByLabel(/^Passphrase/).fill(PASSPHRASE);
    await page.getByLabel('The same passphrase again').fill(PASSPHRASE);
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'People' }).waitFor();

    await page.getByRole('button', { name: 'How it looks' }).press('Enter');
    await page.getByRole('button', { name: 'Name and sign-out' }).press('Enter');
    await page.getByLabel('Name of the yard').fill('Tidewater Row');
    await page.getByLabel('Minutes idle').fill('1');
    await expectSoundInBothLooks(page, 'settings of the yard');
    await page.getByRole('button', { name: 'Keep it' }).press('Enter');
    await expect(page.getByRole('dialog')).toHaveCount(0);

    await page.getByRole('link', { name: 'People' }).click();
    await page.getByRole('button', { name: 'New group' }).click();
    await page.getByLabel('Name of the group').fill('Half a name');
    // The host goes by the machine's clock: asked as a page asks by itself, until a minute has gone by without an action.
    const isOut = async () => (await callHost<WhoAmI>(page, 'whoAmI', {})).person === null;
    await expect.poll(isOut, { timeout: 100_000, intervals: [5000] }).toBe(true);
    await page.clock.runFor(25_000);
    const cover = page.getByRole('dialog', { name: 'Signed out' });
    await expect(cover).toContainText('Instructor 01 was signed out, because nothing had been done for 1 min');
    await expectSoundInBothLooks(page, 'signed out for idleness');
    await page.keyboard.press('Escape');
    await expect(cover).toBeVisible();
    await cover.getByLabel('Passphrase').fill('not that one');
    await page.keyboard.press('Enter');
    await expect(cover.getByRole('alert')).toHaveText('That is not the passphrase.');
    await cover.getByLabel('Passphrase').fill(PASSPHRASE);
    await page.keyboard.press('Enter');
    await expect(cover).toHaveCount(0);
    await expect(page.getByLabel('Name of the group')).toHaveValue('Half a name');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await expect(page.getByRole('button', { name: 'Change the group Half a name' })).toBeVisible();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
