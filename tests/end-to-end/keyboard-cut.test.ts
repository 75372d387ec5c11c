import { expect, type Page, test } from '@playwright/test';
import { cutWithKeys, middleSpeed } from './hands.ts';
import { figureOf, reviewReady } from './page.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

const PATIENCE_TABS = 60;

/** Goes with Tab until what has the focus is named so. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let n = 0; n < PATIENCE_TABS; n += 1) {
    const focused = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute('aria-label') ?? element?.textContent ?? '';
    });
    if (name.test(focused)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not reach ${name} within ${PATIENCE_TABS} steps.`);
}

test('everything from the caution to the score can be done with the keyboard alone, and a steady hand scores', async ({
  page,
}) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host: RunningHost = await startHost(folder.path);
  try {
    await page.goto(host.address);
    await tabTo(page, /^Understood$/);
    await page.keyboard.press('Enter');
    await tabTo(page, /^New apprentice$/);
    await page.keyboard.press('Enter');
    await tabTo(page, /Go to the bench: Trailer hanger tab/);
    await page.keyboard.press('Enter');
    const speedMmPerS = await middleSpeed(page);
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await tabTo(page, /^To the plate$/);
    await page.keyboard.press('Enter');
    await expect(page.locator('.bench-stage')).toBeFocused();
    for (const eye of ['shoulder', 'beside', 'operator']) {
      await page.keyboard.press('v');
      await expect(page.locator('.bench')).toHaveAttribute('data-eye', eye);
    }
    await cutWithKeys(page, { speedMmPerS });
    await reviewReady(page);
    expect(await figureOf(page, '.score', 'score')).toBeGreaterThan(80);
    // How soon the hand leaves the edge hangs on how soon this display shows that the arc is through; all else is the hand's own.
    for (const measure of ['severance', 'travel-speed', 'squareness', 'stand-off', 'line-following']) {
      expect(await figureOf(page, `[data-measure="${measure}"]`, 'mark'), measure).toBeGreaterThan(90);
    }
    // The creep on to the edge, with the arc already on, is in this one.
    expect(await figureOf(page, '[data-measure="steadiness"]', 'mark')).toBeGreaterThan(70);

    await tabTo(page, /^Moment of the run$/);
    await page.keyboard.press('End');
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBeGreaterThan(3000);
    const end = await figureOf(page, '.review', 'tick');
    await page.keyboard.press('ArrowLeft');
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBe(end - 1);
  } finally {
    await host.stop();
    folder.remove();
  }
});
