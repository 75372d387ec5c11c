import { expect, type Page, test } from '@playwright/test';
import { MEASURE_IDS } from '../../sim-core/index.ts';
import { expectSound, expectSoundInBothLooks } from './expect-sound.ts';
import { importRun, openRun, runOfHand } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** 1280 x 720 at twice the size: half as many CSS px. */
const ZOOMED = { width: 640, height: 360 };

/** Controls that lie outside the window sideways, or under another thing at their middle once scrolled to, are lost. */
async function lostControls(page: Page): Promise<string[]> {
  return await page.evaluate(() => {
    const lost: string[] = [];
    for (const control of document.querySelectorAll<HTMLElement>('button, a[href]')) {
      if (control.closest('.out-of-sight:not(.skip), [inert]') || !control.checkVisibility()) continue;
      // The way past the head is in sight only while it has the focus.
      if (control.matches('.skip')) control.focus();
      control.scrollIntoView({ block: 'center', inline: 'center' });
      const { x, y, width, height } = control.getBoundingClientRect();
      const name = control.getAttribute('aria-label') ?? control.textContent ?? '';
      const top = document.elementFromPoint(x + width / 2, y + height / 2);
      if (!top || !(control.contains(top) || top.contains(control))) lost.push(name.trim());
    }
    return lost;
  });
}

test('every measure has its screen in the help, reached from its mark and from the list, and fits on one screen', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const runId = await importRun(page, runOfHand('guard-patch-straight-3', 'too-fast', 3));
    await page.setViewportSize({ width: 1280, height: 720 });
    await page.getByRole('link', { name: 'Help' }).press('Enter');
    const list = page.getByRole('navigation', { name: 'Help' });
    for (const id of MEASURE_IDS) {
      await list.locator(`a[href="#/help/${id}"]`).press('Enter');
      await expect(page.locator(`[data-help="${id}"] svg.help-picture`)).toBeVisible();
      await expect(page.locator(`[data-help="${id}"] section`)).toHaveCount(3);
      const below = await page.locator(`[data-help="${id}"]`).evaluate((element) => element.getBoundingClientRect().bottom);
      expect(below, `${id} is on one screen`).toBeLessThan(720);
    }
    await expectSoundInBothLooks(page, 'help of a measure');
    for (const topic of ['Why the cues fade', 'Keys and controls', 'Cautions']) {
      await list.getByRole('link', { name: topic }).click();
      await expect(page.getByRole('heading', { level: 1, name: topic })).toBeVisible();
      await expectSound(page, topic);
    }

    await openRun(page, runId);
    await reviewReady(page);
    await page.getByRole('button', { name: 'What is meant by: Travel speed' }).press('Enter');
    await expect(page.locator('[role="dialog"] [data-help="travel-speed"]')).toBeVisible();
    await expectSoundInBothLooks(page, 'help beside a mark');
    await page.keyboard.press('Escape');
    await expect(page.getByRole('button', { name: 'What is meant by: Travel speed' })).toBeFocused();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('the first key leads past the head to the content, in the room as it was left', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await page.goto(new URL('/#/help/keys', page.url()).href);
    const title = page.getByRole('heading', { level: 1, name: 'Keys and controls' });
    await title.waitFor();
    await page.keyboard.press('Tab');
    const skip = page.getByRole('button', { name: 'Skip to the content' });
    await expect(skip).toBeFocused();
    await skip.press('Enter');
    await expect(page.locator('#content')).toBeFocused();
    await expect(title).toBeVisible();
    expect(new URL(page.url()).hash).toBe('#/help/keys');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('at 200 % nothing is lost: home, card, bench, review, help', async ({ page }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const expectWhole = async (screen: string) => {
    const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(sideways, `${screen} is wider than the window`).toBeLessThanOrEqual(0);
    expect(await lostControls(page), `${screen}: controls that cannot be reached`).toEqual([]);
  };
  try {
    await openApp(page, host);
    const runId = await importRun(page, runOfHand('guard-patch-straight-3', 'too-fast', 3));
    await page.setViewportSize(ZOOMED);
    await expectWhole('home');
    await page.goto(new URL('/#/help/spark-angle', page.url()).href);
    await page.locator('[data-help="spark-angle"]').waitFor();
    await expectWhole('help');
    await page.goto(new URL('/#/first-cut', page.url()).href);
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await expectWhole('first cut');
    await page.goto(new URL('/#/drill/guard-patch-straight-3', page.url()).href);
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await expectWhole('card');
    await page.getByRole('button', { name: 'To the plate' }).press('Enter');
    await page.locator('.start-mark').waitFor({ timeout: 60_000 });
    await expectWhole('bench');
    const stage = await page.locator('.bench-stage').boundingBox();
    expect(Math.min(stage?.width ?? 0, stage?.height ?? 0), 'the plate is in sight').toBeGreaterThan(180);
    await openRun(page, runId);
    await reviewReady(page);
    await expectWhole('review');
  } finally {
    await host.stop();
    folder.remove();
  }
});
