import { expect, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { tryTheTrigger } from './hands.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

test('the first cut, the guess and the one thing to change are sound by axe, and go by the keyboard', async ({ page }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await page.getByRole('button', { name: 'New apprentice' }).click();
    await page.getByRole('button', { name: 'Make a first cut' }).waitFor();
    await expectSoundInBothLooks(page, 'home of a newcomer');
    await page.getByRole('button', { name: 'Make a first cut' }).press('Enter');
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await expectSoundInBothLooks(page, 'card of the first cut');
    await page.getByRole('button', { name: 'To the plate' }).press('Enter');
    await page.locator('.start-mark').waitFor({ timeout: 60_000 });
    await expectSoundInBothLooks(page, 'bench with cues by the torch');
    await tryTheTrigger(page);
    await page.locator('.guess').waitFor();
    await expect(page.getByRole('heading', { name: 'How was your speed?' })).toBeFocused();
    await expectSoundInBothLooks(page, 'guess');
    await page.keyboard.press('1');
    await page.getByRole('button', { name: 'All the marks' }).waitFor({ timeout: 90_000 });
    await expectSoundInBothLooks(page, 'one thing to change');
    await page.keyboard.press('Enter');
    await page.locator('.score').waitFor();
    await expect(page.locator('.score-head')).toBeFocused();

    // Cues by the torch can be put away, and stay away.
    await page.getByRole('button', { name: 'Cut it again' }).click();
    await page.getByRole('button', { name: 'To the plate' }).click({ timeout: 60_000 });
    await page.locator('.torch-cues').waitFor();
    await page.getByRole('button', { name: 'Cues by the torch' }).click();
    await expect(page.locator('.torch-cues')).toHaveCount(0);
    await expect(page.locator('.cues')).toBeVisible();
  } finally {
    await host.stop();
    folder.remove();
  }
});
