import { expect, type Locator, type Page } from '@playwright/test';
import { middleSpeed } from './hands.ts';
import type { RunningHost } from './start-host.ts';

/** Opens the app at its one-time address and reads the caution away. Anything the page complains of fails the test that looks at it. */
export async function openApp(page: Page, host: RunningHost): Promise<string[]> {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(host.address);
  await page.getByRole('button', { name: 'Understood' }).click();
  return complaints;
}

/** From the home page to the plate of a drill, through its card; the middle of the speed window that the card shows. */
export async function openBench(page: Page, title: RegExp): Promise<number> {
  await page.getByRole('button', { name: title }).click();
  return await toThePlate(page);
}

/** From a drill's card to its plate; the middle of the speed window that the card shows. */
export async function toThePlate(page: Page): Promise<number> {
  const speedMmPerS = await middleSpeed(page);
  const start = page.getByRole('button', { name: 'To the plate' });
  await start.click({ timeout: 60_000 });
  await page.locator('.bench[data-tier="lite"], .bench[data-tier="middle"], .bench[data-tier="full"]').waitFor();
  return speedMmPerS;
}

/** Rooms of an instructor that are gathered behind one entry of the head. */
const IN_THE_OFFICE = ['Drill packs', 'Backup', 'Who did what'];

/** Through the head of the page, as an instructor. */
export async function toRoom(page: Page, name: string): Promise<void> {
  if (!IN_THE_OFFICE.includes(name)) {
    await page.getByRole('link', { name, exact: true }).click();
    return;
  }
  await page.getByRole('button', { name: 'Office' }).click();
  await page.getByRole('menuitem', { name, exact: true }).click();
}

/** Waits until the review of a run stands and any of its moments can be shown. */
export async function reviewReady(page: Page): Promise<void> {
  // A run that was just cut asks for a guess first, and tells the one thing to change before the marks.
  await page.locator('.guess, .review').first().waitFor({ timeout: 90_000 });
  if (await page.locator('.guess').isVisible()) await page.keyboard.press('Escape');
  await page.locator('.review').waitFor({ timeout: 90_000 });
  const all = page.getByRole('button', { name: 'All the marks' });
  if (await all.isVisible()) await all.press('Enter');
  await page.locator('.review[data-ready="true"]').waitFor({ timeout: 90_000 });
}

/** From its row to the last moment of a run that broke off, which the review tells as that. */
export async function replayUnfinished(page: Page, row: Locator): Promise<void> {
  await row.getByRole('button', { name: /^Replay/ }).click();
  await reviewReady(page);
  await expect(page.locator('.review-side')).toContainText('was not finished');
  await page.getByRole('slider').press('End');
}

/** A figure that the page keeps beside its words, for tests. */
export async function figureOf(page: Page, selector: string, name: string): Promise<number> {
  const text = await page.locator(selector).getAttribute(`data-${name}`);
  if (text === null || text === '') throw new Error(`${selector} shows no ${name}.`);
  return Number(text);
}
