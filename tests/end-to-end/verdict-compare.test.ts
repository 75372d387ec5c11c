import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { importRun, runOfHand } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const TICK_HZ = 240;
const panes = (page: Page) => page.locator('.compare-pane');
const ticks = async (page: Page): Promise<[number, number]> => {
  const both = await panes(page).evaluateAll((found) => found.map((pane) => Number(pane.getAttribute('data-tick'))));
  return [both[0] as number, both[1] as number];
};

test('a quick run and the reference hand stand at the same place, or at the same time, by keyboard', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const runId = await importRun(page, runOfHand('guard-patch-straight-3', 'too-fast', 3));
    await page.goto(new URL(`/#/run/${runId}`, page.url()).href);
    await page.getByRole('button', { name: 'Compare', exact: true }).press('Enter');
    const work = page.locator('.compare-work[data-ready="true"]');
    await work.waitFor({ timeout: 90_000 });
    await expect(work).toHaveAttribute('data-by', 'place');
    await expect(page.locator('.compare-traces .trace')).toHaveCount(6);

    await expectSoundInBothLooks(page, 'side by side');
    // Half way along the line the quick hand is there long before the one that does it right.
    const slider = page.getByRole('slider', { name: 'Place on the line' });
    await slider.focus();
    for (let n = 0; n < 5; n++) await page.keyboard.press('PageUp');
    // Whoever hears the slider is told what stands beside it.
    const where = (await page.locator('.compare-where').textContent()) ?? '';
    expect(where).toContain('mm');
    await expect(slider).toHaveAttribute('aria-valuetext', where);
    await expect.poll(async () => (await ticks(page))[1]).toBeGreaterThan(3 * TICK_HZ);
    const [quick, right] = await ticks(page);
    expect(quick).toBeLessThan(right * 0.8);
    // The figures beside the traces tell the same: the first run is faster there.
    const speeds = await page
      .locator('.compare-table')
      .first()
      .locator('tr', { hasText: 'Speed' })
      .locator('td')
      .allTextContents();
    expect(Number(speeds[0])).toBeGreaterThan(Number(speeds[1]) * 1.2);

    await page.getByRole('radio', { name: 'Time since the arc' }).focus();
    await page.keyboard.press('Space');
    await expect(work).toHaveAttribute('data-by', 'time');
    await page.getByRole('slider', { name: 'Time since the arc' }).press('Home');
    for (let n = 0; n < 4; n++) await page.keyboard.press('PageUp');
    await expect.poll(async () => Math.abs((await ticks(page))[0] - (await ticks(page))[1])).toBeLessThan(TICK_HZ / 2);
    await expect(page.getByText('Without sound, on purpose')).toBeVisible();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
