import { expect, type Page, test } from '@playwright/test';
import { holdPad, plugInPad } from './gamepad.ts';
import { figureOf, openApp, openBench, replayUnfinished } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const RIGHT_TRIGGER = 7;
const SUSPENDED_MS = 12_000;

/** A cut under way, by a pad whose trigger is held. */
async function cutWithPad(page: Page): Promise<void> {
  await openBench(page, /Go to the bench: Trailer hanger tab/);
  await holdPad(page, { buttons: { [RIGHT_TRIGGER]: 1 } });
  await expect(page.locator('[data-arc]').first()).not.toHaveAttribute('data-arc', 'off');
}

test('a simulation that the machine suspends is told of and the cut goes on; a page loaded anew in a cut leaves it unfinished', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await plugInPad(page);
    const simulation = page.waitForEvent('worker', (worker) => worker.url().includes('simulation-worker'));
    await openApp(page, host);
    await cutWithPad(page);
    const suspended = (await simulation).evaluate((ms) => {
      const until = performance.now() + ms;
      while (performance.now() < until);
    }, SUSPENDED_MS);
    const told = page.getByRole('alert').filter({ hasText: 'stopped the simulation of the cut' });
    await expect(told).toBeVisible({ timeout: SUSPENDED_MS });
    await suspended;
    await expect(told).toBeHidden();
    // Inputs go out every 0.3 s: these are of after the suspension.
    const kept = page.waitForResponse((response) => response.url().endsWith('/call/appendToRun'));
    const { tickCount } = ((await (await kept).json()) as { reply: { tickCount: number } }).reply;

    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('button', { name: 'Home' }).click();
    const row = page.locator('[data-run-state]');
    await expect(row).toHaveAttribute('data-run-state', 'unfinished', { timeout: 30_000 });
    await replayUnfinished(page, row);
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBeGreaterThanOrEqual(tickCount);
  } finally {
    await host.stop();
    folder.remove();
  }
});
