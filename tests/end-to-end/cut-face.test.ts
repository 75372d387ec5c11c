import { expect, type Page, test } from '@playwright/test';
import { expectSound } from './expect-sound.ts';
import { importRun, openRun, runOfHand } from './imported-run.ts';
import { figureOf, openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** Presses Tab until the focus is on what is wanted. */
async function tabTo(page: Page, wanted: string): Promise<void> {
  for (let n = 0; n < 60; n += 1) {
    if (await page.locator(`${wanted}:focus`).count()) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The keyboard does not reach ${wanted}.`);
}

test('the cut face and the bill of a run, by keyboard alone, in both lights', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await page.setViewportSize({ width: 1024, height: 700 });
    const complaints = await openApp(page, host);
    await openRun(page, await importRun(page, runOfHand('guard-patch-straight-3', 'too-fast', 3)));
    await reviewReady(page);

    await tabTo(page, '[role="tab"][data-key="marks"]');
    await page.keyboard.press('ArrowRight');
    await expect(page.getByRole('tab', { name: 'Cut face' })).toHaveAttribute('aria-selected', 'true');
    await expect(page.getByText('Estimates for training, from')).toBeVisible();
    await expect(page.locator('.quality[data-figure="squareness"]')).toBeVisible();
    await expect(page.locator('.legend li')).toHaveCount(6);

    // Every figure can be chosen, and shows what its levels mean.
    await tabTo(page, '.quality input[type="radio"]');
    for (const figure of ['profile', 'drag', 'dross', 'heat', 'uncut']) {
      await page.keyboard.press('ArrowRight');
      await expect(page.locator(`.quality[data-figure="${figure}"]`)).toBeVisible();
    }

    // A row leads to its moment.
    const rows = page.locator('.quality-table tbody tr');
    expect(await rows.count()).toBeGreaterThan(4);
    const before = await figureOf(page, '.review', 'tick');
    await rows.nth(2).getByRole('button').press('Enter');
    await expect.poll(() => figureOf(page, '.review', 'tick')).not.toBe(before);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await expect(page.locator('html')).toHaveAttribute('data-theme', colorScheme);
      await expectSound(page, `${colorScheme}: cut face`);
    }

    await page.getByRole('tab', { name: 'Cut face' }).press('ArrowRight');
    await expect(page.locator('.cost-table tbody tr')).toHaveCount(6);
    const total = await figureOf(page, '.cost', 'total');
    expect(total).toBeGreaterThan(0);
    await expectSound(page, 'dark: cost');

    // Prices are changed, and stay changed.
    await page.getByRole('button', { name: 'Prices…' }).press('Enter');
    await expectSound(page, 'dark: prices');
    await page.getByLabel('Currency sign').fill('kr');
    await page.getByLabel('Mild steel, per kg').fill('4');
    await page.getByLabel('Mild steel, per kg').press('Enter');
    await expect(page.getByRole('dialog')).toHaveCount(0);
    const plate = page.locator('[data-line="plate"]');
    const kg = Number(/([\d.]+)/.exec((await plate.locator('td').first().textContent()) ?? '')?.[1]);
    await expect.poll(() => figureOf(page, '.cost', 'total')).toBeCloseTo(total + 2 * kg, 2);
    await expect(plate.locator('td').last()).toContainText('kr');
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await reviewReady(page);
    await page.getByRole('tab', { name: 'Cost' }).click();
    await expect(page.locator('.cost-table tfoot')).toContainText('kr');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
