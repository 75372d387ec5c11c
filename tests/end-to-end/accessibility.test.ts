import { expect, test } from '@playwright/test';
import { expectSound } from './expect-sound.ts';
import { importRun, openRun, runOfHand } from './imported-run.ts';
import { openBench, reviewReady } from './page.ts';
import { openRig } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const LOOKS = [
  { theme: 'light', width: 1280, height: 720 },
  { theme: 'dark', width: 1280, height: 720 },
  { theme: 'light', width: 1920, height: 1080 },
  { theme: 'dark', width: 1920, height: 1080 },
] as const;

test('every screen is sound by axe, in the light of day and of evening, at two sizes', async ({ page }) => {
  test.setTimeout(900_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await page.goto(host.address);
    await page.getByRole('button', { name: 'Understood' }).waitFor();
    const runId = await importRun(page, runOfHand('guard-patch-straight-3', 'too-fast', 3));
    for (const look of LOOKS) {
      const name = `${look.theme} ${look.width}x${look.height}`;
      await page.setViewportSize(look);
      await page.emulateMedia({ colorScheme: look.theme });
      await page.goto(new URL('/#/', page.url()).href);
      await page.reload();
      await page.getByRole('button', { name: 'Understood' }).waitFor();
      await expectSound(page, `${name}: caution`);
      await page.getByRole('button', { name: 'Understood' }).click();
      await expect(page.locator('html')).toHaveAttribute('data-theme', look.theme);
      await page.locator('[data-run-state="finished"]').waitFor();
      await expectSound(page, `${name}: home`);
      await page.getByRole('button', { name: 'How it looks' }).click();
      await page.getByRole('radio', { name: 'Inches' }).waitFor();
      await expectSound(page, `${name}: settings`);
      await page.keyboard.press('Escape');

      await page.getByRole('button', { name: /Go to the bench: Mudguard patch/ }).click();
      await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
      await expectSound(page, `${name}: card`);
      await page.getByRole('button', { name: 'Keys', exact: true }).click();
      await page.getByRole('button', { name: 'Close' }).waitFor();
      await expectSound(page, `${name}: keys`);
      await page.keyboard.press('Escape');
      await page.getByRole('button', { name: 'Home' }).click();

      await openRig(page, /Go to the bench: Trailer step/);
      await expectSound(page, `${name}: rig check`);
      await page.getByRole('button', { name: 'Strike the arc' }).click();
      await page.locator('[data-finding]').first().waitFor();
      await expectSound(page, `${name}: rig check, stopped`);
      await page.getByRole('button', { name: 'Home' }).click();
      await openBench(page, /Go to the bench: What is wrong\? First rig/);
      await page.keyboard.press('Space', { delay: 200 });
      await page.keyboard.press('e');
      await page.getByRole('heading', { name: 'What was wrong with this rig?' }).waitFor();
      await expectSound(page, `${name}: diagnosis`);
      await page.getByRole('button', { name: 'Home' }).click();
      await page.getByRole('button', { name: /^Technique|Any.*Technique/ }).click();
      await page.getByRole('option', { name: 'Gouging' }).waitFor();
      await expectSound(page, `${name}: drill filter`);
      await page.getByRole('option', { name: 'Edge start' }).click();
      await openBench(page, /Go to the bench: Mudguard patch/);
      await expectSound(page, `${name}: bench`);
      await expect(page.locator('.guide-sentence')).toBeInViewport({ ratio: 1 });
      await expect(page.locator('.bench-cues')).toBeInViewport({ ratio: 1 });
      await openRun(page, runId);
      await reviewReady(page);
      await expectSound(page, `${name}: review`);
      await expect(page.locator('.review-traces')).toBeInViewport({ ratio: 1 });
    }
  } finally {
    await host.stop();
    folder.remove();
  }
});
