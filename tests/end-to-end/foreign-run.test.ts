import { expect, test } from '@playwright/test';
import { importRun, openRun, runOfHand } from './imported-run.ts';
import { figureOf, openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

test('a run from elsewhere is cut again and compared; one that differs, or of another core, is told apart', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const honest = runOfHand('guard-patch-straight-3', null, 5);
    await openRun(page, await importRun(page, honest));
    await reviewReady(page);
    await expect(page.locator('.review')).toHaveAttribute('data-verdict', 'same');
    expect(await figureOf(page, '.score', 'score')).toBeGreaterThanOrEqual(90);
    await expect(page.locator('.score')).toHaveAttribute('data-passed', 'true');

    // Another seed, or the host would know it for the run it has.
    const other = runOfHand('guard-patch-straight-3', null, 8);
    const forged = { ...other, digests: other.digests.map((digest, n) => (n === 2 ? '0123456789abcdef' : digest)) };
    await openRun(page, await importRun(page, forged));
    await reviewReady(page);
    await expect(page.locator('.review')).toHaveAttribute('data-verdict', 'different');
    await expect(page.locator('.review-side')).toContainText('it comes out different');

    const otherCore = { ...honest, coreVersion: '0.9.0-test', seed: 6 };
    await openRun(page, await importRun(page, otherCore));
    await reviewReady(page);
    await expect(page.locator('.review-side')).toContainText('Cut with core 0.9.0-test');
    await expect(page.locator('.review')).toHaveAttribute('data-verdict', '');
    await page.getByRole('slider').press('End');
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBeGreaterThan(240);
  } finally {
    await host.stop();
    folder.remove();
  }
});
