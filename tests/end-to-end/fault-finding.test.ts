import { expect, test } from '@playwright/test';
import { enFaultFinding } from '../../renderer/text/en-fault-finding.ts';
import { goToEdgeWithKeys, untilStep } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { recordOf, runIdOf } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const CAUSES = Object.entries(enFaultFinding)
  .filter(([key]) => key.startsWith('fault-cause.'))
  .map(([, words]) => words);

test('a rig with something wrong shows it in words, names it nowhere, asks, and marks the answer', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const expectNoName = async () => {
    const words = (await page.locator('body').textContent()) ?? '';
    expect(CAUSES.filter((cause) => words.includes(cause))).toEqual([]);
    expect(await page.locator('[data-fault], [data-faults]').count()).toBe(0);
  };
  try {
    await openApp(page, host);
    await expectNoName();
    await openBench(page, /Go to the bench: What is wrong\? First rig/);
    await expectNoName();
    await goToEdgeWithKeys(page, 1);
    await untilStep(page, 'strike');
    await page.keyboard.down('Space');
    await expect(page.locator('[data-arc="transferred"]')).toBeVisible({ timeout: 20_000 });
    await expect(page.locator('[data-signs~="soft"]')).toContainText('soft and wide', { timeout: 10_000 });
    await expect(page.locator('[data-gas-flows="true"]')).toContainText(/at the torch \d/);
    // How far the parts are spent would give one of the faults away.
    await expect(page.locator('[data-parts-spent]')).toHaveCount(0);
    await expectNoName();
    await page.keyboard.up('Space');
    await page.keyboard.press('e');

    await expect(page.getByRole('heading', { name: 'What was wrong with this rig?' })).toBeVisible();
    await expect(page.locator('.diagnosis-seen')).toContainText('soft and wide');
    await expect(page.locator('.score')).toHaveCount(0);
    await expect(page.getByRole('button', { name: 'Choose a cause and a remedy' })).toBeDisabled();
    await page.getByText('Gas pressure set too low').click();
    await page.getByText('Set the regulator higher').click();
    await page.getByRole('button', { name: 'That is my answer' }).click();
    await reviewReady(page);
    expect(await figureOf(page, '[data-measure="fault-finding"]', 'mark')).toBe(100);
    const { diagnosis, choices } = await recordOf(page, runIdOf(page));
    expect(diagnosis).toEqual({ cause: 'low-gas', remedy: 'raise-pressure' });
    expect(choices).toBeNull();
  } finally {
    await host.stop();
    folder.remove();
  }
});
