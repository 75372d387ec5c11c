import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { cutWithKeys } from './hands.ts';
import { openBench, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const SIZES = [
  { width: 1280, height: 720 },
  { width: 1920, height: 1080 },
] as const;

/** No rule of WCAG 2.2 A and AA that axe can check is broken, and nothing has to be scrolled sideways. */
async function expectSound(page: Page, screen: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  const found = violations.map((one) => `${screen}: ${one.id} at ${one.nodes.map((node) => node.target.join(' ')).join(', ')}`);
  expect(found).toEqual([]);
  const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(sideways, `${screen} is wider than the window`).toBeLessThanOrEqual(0);
}

for (const theme of ['light', 'dark'] as const) {
  for (const size of SIZES) {
    test(`every screen is sound by axe: ${theme}, ${size.width}x${size.height}`, async ({ browser }) => {
      test.setTimeout(240_000);
      const folder = temporaryFolder();
      const host = await startHost(folder.path);
      const context = await browser.newContext({ viewport: size, colorScheme: theme });
      const page = await context.newPage();
      try {
        await page.goto(host.address);
        await page.getByRole('button', { name: 'Understood' }).waitFor();
        await expectSound(page, 'caution');
        await page.getByRole('button', { name: 'Understood' }).click();
        await page.getByRole('button', { name: 'New apprentice' }).click();
        await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
        await expectSound(page, 'home');
        await page.getByRole('button', { name: 'How it looks' }).click();
        await expectSound(page, 'settings');
        await page.keyboard.press('Escape');

        await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).click();
        await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
        await expectSound(page, 'card');
        await page.getByRole('button', { name: 'Keys', exact: true }).click();
        await expectSound(page, 'keys');
        await page.keyboard.press('Escape');
        await page.goto(new URL('/#/', page.url()).href);
        await openBench(page, /Go to the bench: Trailer hanger tab/);
        await expectSound(page, 'bench');
        await expect(page.locator('.guide-sentence')).toBeInViewport({ ratio: 1 });
        await expect(page.locator('.bench-cues')).toBeInViewport({ ratio: 1 });
        await cutWithKeys(page, { lengthMm: 160, speedMmPerS: 9 });
        await reviewReady(page);
        await expectSound(page, 'review');
        await page.getByRole('button', { name: 'Home' }).click();
        await page.locator('[data-run-state="finished"]').waitFor();
        await expectSound(page, 'home with runs');
      } finally {
        await context.close();
        await host.stop();
        folder.remove();
      }
    });
  }
}
