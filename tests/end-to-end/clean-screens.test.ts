// What screens showed cut off, squeezed, out of line, broken between a figure and its unit, or ringed twice; all of it in a small window.
import { expect, type Locator, type Page, test } from '@playwright/test';
import { sidewaysPx } from './expect-sound.ts';
import { arriveAs, staffYard } from './handed-in-run.ts';
import { callHost, importRun, openRun, runOfHand } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { inYard } from './start-host.ts';

const DRILL = 'hanger-tab-straight-6';
const SMALL = { width: 1024, height: 700 };

/** How many lines the words of an element take. */
function linesOf(words: Locator): Promise<number> {
  return words.evaluate((element) => {
    const all = document.createRange();
    all.selectNodeContents(element);
    return new Set([...all.getClientRects()].map(({ bottom }) => Math.round(bottom))).size;
  });
}

async function box(part: Locator): Promise<{ x: number; y: number; width: number; height: number }> {
  const found = await part.boundingBox();
  if (found === null) throw new Error('It is not shown.');
  return found;
}

async function go(page: Page, room: string): Promise<void> {
  await page.goto(new URL(`/#/${room}`, page.url()).href);
}

/** Parts of the builder whose words do not fit into them. */
function squeezed(page: Page): Promise<(string | null)[]> {
  return page
    .locator('.builder-head .action, .part-tabs, .part-tab, .answer-list dt')
    .evaluateAll((all) => all.filter((one) => one.scrollWidth > one.clientWidth).map((one) => one.textContent));
}

test.use({ viewport: SMALL });

test('in a small window the lists of the yard are whole, and the plan of a drill is large enough to work on', async ({
  page,
}) => {
  await inYard(async (host) => {
    await openApp(page, host);
    await page.getByRole('button', { name: 'Open the demo yard' }).press('Enter');
    await page.getByRole('button', { name: 'Sign in as Instructor 01' }).click();
    await page.getByRole('link', { name: 'Assigned' }).click();
    const list = page.locator('.table-frame');
    await expect(page.locator('[data-assignment]')).toHaveCount(8);
    expect.soft(await list.evaluate((frame) => frame.scrollWidth - frame.clientWidth)).toBeLessThanOrEqual(0);

    await go(page, 'people');
    const heading = await box(page.getByRole('heading', { level: 1 }));
    expect.soft((await box(page.getByRole('button', { name: 'Take in a roster' }))).x).toBeCloseTo(heading.x, 0);

    await go(page, 'class');
    await page.locator('.sort-head').last().waitFor();
    const signs = await page.locator('.sort-head svg').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().width));
    expect.soft(Math.min(...signs)).toBeCloseTo(Math.max(...signs), 1);

    await go(page, `build/${DRILL}`);
    const plan = page.locator('.plan-picture');
    await plan.waitFor();
    expect.soft((await box(plan)).width).toBeGreaterThan(400);
    expect.soft(await squeezed(page)).toEqual([]);
    const padding = await page.getByRole('button', { name: 'Versions' }).evaluate((button) => {
      const words = document.createRange();
      words.selectNodeContents(button);
      return words.getBoundingClientRect().left - button.getBoundingClientRect().left;
    });
    expect.soft(padding).toBeGreaterThan(10);
    await callHost(page, 'setSettings', { language: 'de' });
    await page.reload();
    await page.getByRole('button', { name: 'Verstanden' }).click();
    await plan.waitFor();
    expect.soft(await squeezed(page)).toEqual([]);
    for (const width of [SMALL.width, 1280]) {
      await page.setViewportSize({ ...SMALL, width });
      expect.soft(await sidewaysPx(page)).toBeLessThanOrEqual(0);
    }
  });
});

test('no figure is parted from its unit on a card or over a trace; the tabs of a run stand in one row, and what has the focus is ringed alone', async ({
  page,
}) => {
  await inYard(async (host) => {
    await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    const runId = await importRun(page, runOfHand(DRILL, null, 5));
    await arriveAs(page, yard.instructorId, `drill/${DRILL}`);
    const speed = page.locator('[data-window-low]:not([data-window-low=""])');
    await speed.waitFor({ timeout: 60_000 });
    expect.soft(await linesOf(speed)).toBe(1);
    expect.soft(await page.locator('#card-title').textContent()).toContain('6\u00a0mm');

    await openRun(page, runId);
    await reviewReady(page);
    for (const words of await page.locator('.trace-head > *').all()) expect.soft(await linesOf(words)).toBe(1);
    const tabs = await page.locator('.review-tabs .tab').evaluateAll((all) => all.map((tab) => tab.getBoundingClientRect().top));
    expect.soft(tabs).toHaveLength(5);
    expect.soft(new Set(tabs.map(Math.round)).size).toBe(1);

    await page.getByRole('tab', { name: 'Marks' }).press('Tab');
    const ringed = await page
      .locator('.review-side, .review-side *')
      .evaluateAll((all) => all.filter((one) => getComputedStyle(one).outlineStyle === 'solid').length);
    expect.soft(ringed).toBe(1);
  });
});
