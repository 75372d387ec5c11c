import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

const LOOKS = [
  { theme: 'light', width: 1280, height: 720 },
  { theme: 'dark', width: 1920, height: 1080 },
] as const;

/** How much wider than the window the page is. */
export function sidewaysPx(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

/** Rules of WCAG 2.2 A and AA that axe can check and that are broken. */
export async function unsoundness(page: Page, screen: string): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'])
    .analyze();
  return violations.map((one) => `${screen}: ${one.id} at ${one.nodes.map((node) => node.target.join(' ')).join(', ')}`);
}

/** Nothing that axe can check is broken, nothing has to be scrolled sideways, and a room fits into the window. */
export async function expectSound(page: Page, screen: string): Promise<void> {
  expect(await unsoundness(page, screen)).toEqual([]);
  expect(await sidewaysPx(page), `${screen} is wider than the window`).toBeLessThanOrEqual(0);
  // A room scrolls inside itself; only the home page is longer than the window.
  const rooms = await page.locator('.bench, .builder').count();
  const below = await page.evaluate(() => document.documentElement.scrollHeight - window.innerHeight);
  if (rooms > 0) expect(below, `${screen} is longer than the window`).toBeLessThanOrEqual(0);
}

/** The same small and light, and large and dark; the window is small and light afterwards. */
export async function expectSoundInBothLooks(page: Page, screen: string): Promise<void> {
  for (const look of LOOKS.toReversed()) {
    await page.setViewportSize(look);
    await page.emulateMedia({ colorScheme: look.theme });
    await expect(page.locator('html')).toHaveAttribute('data-theme', look.theme);
    await expectSound(page, `${screen}, ${look.theme}`);
  }
}
