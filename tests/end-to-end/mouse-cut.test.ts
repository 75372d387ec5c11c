import { expect, test } from '@playwright/test';
import { cutWithMouse } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

/**
 * The whole way of a first cut: real mouse movements cut a plate, the score appears, a deduction leads to its moment, the app is
 * killed and started again, the run is in the list and its replay plays.
 */
test('a plate is cut with the mouse, scored, kept through a power cut, and replayed', async ({ page, context }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  let host: RunningHost | null = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await page.getByRole('button', { name: 'New apprentice' }).click();
    await expect(page.getByRole('button', { name: /Who practises/ })).toContainText('Apprentice 01');
    const speedMmPerS = await openBench(page, /Go to the bench: Trailer hanger tab/);
    await cutWithMouse(page, {
      plate: { lengthMm: 160, widthMm: 90 },
      spotAt: (travelled) => ({ xMm: travelled, yMm: 60 }),
      lengthMm: 160,
      speedMmPerS,
    });
    await reviewReady(page);

    // Most of the plate is through, along the line; how steady the hand is depends on how busy this machine is.
    expect(await figureOf(page, '.score', 'score')).toBeGreaterThan(30);
    expect(await figureOf(page, '[data-measure="severance"]', 'mark')).toBeGreaterThan(30);
    expect(await figureOf(page, '[data-measure="line-following"]', 'mark')).toBeGreaterThan(60);
    await expect(page.locator('.review')).toHaveAttribute('data-verdict', 'same');
    const runId = new URL(page.url()).hash.replace('#/run/', '');
    const score = await figureOf(page, '.score', 'score');

    const deduction = page.locator('.deduction').first();
    const fromTick = Number(await deduction.getAttribute('data-from-tick'));
    await page.getByRole('slider').press('End');
    await deduction.click();
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBe(Math.max(0, fromTick - 60));

    await host.kill();
    host = await startHost(folder.path);
    const again = await context.newPage();
    const laterComplaints = await openApp(again, host);
    const row = again.locator(`[data-run-id="${runId}"]`);
    await expect(row).toHaveAttribute('data-run-state', 'finished');
    await expect(row).toContainText('Apprentice 01');
    await row.getByRole('button', { name: /^Replay/ }).click();
    await reviewReady(again);
    expect(await figureOf(again, '.score', 'score')).toBe(score);
    await expect(again.locator('.review')).toHaveAttribute('data-verdict', 'same');
    await again.getByRole('slider').press('Home');
    await expect.poll(() => figureOf(again, '.review', 'tick')).toBe(0);
    await again.getByRole('radio', { name: '4×' }).click();
    await again.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => figureOf(again, '.review', 'tick'), { timeout: 30_000 }).toBeGreaterThan(480);
    expect(complaints.filter((text) => !text.includes('ERR_CONNECTION_REFUSED'))).toEqual([]);
    expect(laterComplaints).toEqual([]);
  } finally {
    await host?.stop();
    folder.remove();
  }
});
