import { expect, test } from '@playwright/test';
import { cutWithKeys, untilStep } from './hands.ts';
import { figureOf, openApp, openBench, replayUnfinished } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

test('a machine that dies in the middle of a run leaves that run, up to its last second, marked unfinished', async ({
  page,
  context,
}) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  let host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const speedMmPerS = await openBench(page, /Go to the bench: Trailer hanger tab/);
    const cutting = cutWithKeys(page, { speedMmPerS }).catch(() => undefined);
    await untilStep(page, 'wait-through', 'move', 'faster');
    const began = performance.now();
    await page.waitForTimeout(6000);
    await host.kill();
    const cutSeconds = (performance.now() - began) / 1000;
    await page.close();
    await cutting;

    host = await startHost(folder.path);
    const again = await context.newPage();
    await openApp(again, host);
    const row = again.locator('[data-run-state="unfinished"]');
    await expect(row).toHaveCount(1);
    await replayUnfinished(again, row);
    await expect.poll(() => figureOf(again, '.review', 'tick')).toBeGreaterThan((cutSeconds - 1) * 240);
  } finally {
    await host.stop();
    folder.remove();
  }
});
