import { expect, test } from '@playwright/test';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const ROUNDS = 6;

test('a room that is left is let go of: going to and fro does not fill the memory', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const inspector = await page.context().newCDPSession(page);
    const held: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).click();
      await page.getByRole('button', { name: 'To the plate' }).waitFor();
      await page.getByRole('button', { name: 'Home', exact: true }).click();
      await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).waitFor();
      await inspector.send('HeapProfiler.collectGarbage');
      held.push((await inspector.send('Memory.getDOMCounters')).nodes);
    }
    const [first = 0] = held;
    const own = await page.evaluate(() => document.getElementsByTagName('*').length);
    // One room more may be held at any time, by the browser itself; each round leaves two.
    expect(held.at(-1), held.join(' ')).toBeLessThan(first + 3 * own);
  } finally {
    await host.stop();
    folder.remove();
  }
});
