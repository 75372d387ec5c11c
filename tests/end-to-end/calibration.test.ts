import { expect, type Page, test } from '@playwright/test';
import type { RunRecord, Settings } from '../../electron/contract.ts';
import { decodeHandLog, fromBase64, readHandTick } from '../../sim-core/index.ts';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { recordOf, runIdOf } from './rig.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

const CARD_MM = 85.6;

/** A stroke of the held mouse, its px spread over a time; the page goes by the stamps of its events. */
async function strokeWithMouse(page: Page, px: number, seconds: number): Promise<void> {
  const steps = 8;
  await page.mouse.move(100, 100);
  await page.mouse.down();
  const began = Date.now();
  for (let n = 1; n <= steps; n += 1) {
    const dueMs = (n / steps) * seconds * 1000 - (Date.now() - began);
    if (dueMs > 0) await page.waitForTimeout(dueMs);
    await page.mouse.move(100 + (px * n) / steps, 100);
  }
  await page.mouse.up();
}

async function holdPointer(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Click here to start/ }).click();
  await page.locator('.hand-field[data-locked="true"]').waitFor();
}

/** Three strokes of these lengths, px: usual, slow, fast. */
async function measure(page: Page, px: [number, number, number]): Promise<void> {
  await holdPointer(page);
  const field = page.locator('.hand-field');
  await strokeWithMouse(page, px[0], 0.6);
  await expect(field).toHaveAttribute('data-strokes', '1');
  // Slow enough that the fast one stays fast enough on a busy machine too.
  await strokeWithMouse(page, px[1], 8);
  await expect(field).toHaveAttribute('data-strokes', '2');
  await strokeWithMouse(page, px[2], 0.2);
  await expect(field).toHaveAttribute('data-strokes', '3');
}

async function withApp(page: Page, act: (host: RunningHost, complaints: string[]) => Promise<void>): Promise<void> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await act(host, complaints);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
}

const settingsOf = (page: Page) => callHost<Settings>(page, 'getSettings', {});

test('the hand is offered to be measured, measured with the mouse, and moves the torch one to one in the run that says so', async ({
  page,
}) => {
  test.setTimeout(240_000);
  await withApp(page, async () => {
    await page.getByRole('button', { name: 'New apprentice' }).click();
    await expect(page.getByRole('button', { name: /Who practises/ })).toContainText('Apprentice 01');
    await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).click();
    await page.getByRole('button', { name: 'Measure my hand' }).click();
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Your hand, one to one');

    // The outline goes with the arrow keys, and keeps the shape of a card.
    const outline = page.getByRole('img', { name: /Outline of a bank card/ });
    const before = await outline.boundingBox();
    const rider = page.getByRole('slider', { name: 'Width of the outline' });
    await rider.focus();
    for (let n = 0; n < 5; n += 1) await page.keyboard.press('ArrowRight');
    const after = await outline.boundingBox();
    if (!before || !after) throw new Error('There is no outline.');
    expect(after.width - before.width).toBeCloseTo(5 * 0.02 * CARD_MM, 0);
    expect(after.width / after.height).toBeCloseTo(85.6 / 53.98, 2);
    await expectSoundInBothLooks(page, 'calibration, screen');
    await page.getByRole('button', { name: 'It fits' }).click();

    await measure(page, [856, 848, 864]);
    const result = page.locator('.hand-result');
    await expect(result).toContainText('1\u00a0mm of your hand is 10.00 px.');
    await expect(result.locator('[data-warning]')).toHaveCount(0);
    await expectSoundInBothLooks(page, 'calibration, result');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await expect(page.locator('[data-kept="mouse"]')).toBeVisible();
    const { hand } = await settingsOf(page);
    expect(hand.scales).toHaveLength(1);
    expect(hand.scales[0]?.pxPerMm).toBeCloseTo(10, 6);
    await page.getByRole('button', { name: 'Back' }).click();

    // Not asked again; at the plate the first click takes the torch and does not pull its trigger.
    await page.getByRole('button', { name: 'To the plate' }).click({ timeout: 60_000 });
    await page.locator('.bench[data-tier="lite"], .bench[data-tier="middle"], .bench[data-tier="full"]').waitFor();
    const note = page.locator('.torch-note');
    await expect(note).toContainText('Click the plate to take the torch');
    await page.mouse.move(400, 300);
    await page.mouse.click(400, 300);
    await expect(note).toHaveAttribute('data-pointer', 'held');
    await expect(note).toContainText('Esc puts it down');
    // 100 mm of the hand at 10 px a mm.
    await page.mouse.move(400, 300);
    await page.mouse.down();
    // The way is read while the trigger is pulled: the pull is in the run before the hand moves.
    await page.waitForTimeout(400);
    for (let n = 1; n <= 20; n += 1) {
      await page.mouse.move(400 + n * 50, 300);
      await page.waitForTimeout(30);
    }
    await page.waitForTimeout(400);
    await page.mouse.up();
    await page.keyboard.press('e');
    await reviewReady(page);
    await expect(page.locator('[data-hand-scale="mouse"]')).toContainText('Hand scale 1:1 measured on');
    const run = await recordOf(page, runIdOf(page));
    expect(run.handScale).toMatchObject({ device: 'mouse', applied: true });
    expect(run.handScale?.pxPerMm).toBeCloseTo(10, 6);
    expect(wayMm(run)).toBeCloseTo(100, 1);
    const { text } = await callHost<{ text: string }>(page, 'exportRun', { runId: run.id });
    expect(JSON.parse(text.split('\n')[0] as string)).toMatchObject({ formatVersion: 3, handScale: run.handScale });
  });
});

/** How far the torch went to the right while the trigger was pulled, mm. */
function wayMm(run: RunRecord): number {
  const log = decodeHandLog(fromBase64(run.inputs));
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let n = 0; n < log.length; n += 1) {
    readHandTick(log, n, tick);
    if (tick.trigger === 0) continue;
    low = Math.min(low, tick.x);
    high = Math.max(high, tick.x);
  }
  return (high - low) / 100;
}

test('a system that speeds the pointer up is told, and the offer can be passed over for good', async ({ page }) => {
  test.setTimeout(180_000);
  await withApp(page, async () => {
    await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).click();
    await page.getByRole('button', { name: 'Skip' }).click();
    await expect(page.locator('.hand-offer')).toHaveCount(0);
    expect((await settingsOf(page)).hand.notAsked).toEqual(['nobody']);
    await page.goto(new URL('/#/hand', page.url()).href);
    await page.getByRole('button', { name: 'It fits' }).click();
    await holdPointer(page);
    // Too short, then a slow one that is not slow: told, and not counted.
    await strokeWithMouse(page, 8, 0.1);
    await expect(page.locator('.hand-field')).toContainText('too short');
    await page.keyboard.press('Escape');
    await page.locator('.hand-field[data-locked="false"]').waitFor();
    await measure(page, [900, 800, 1100]);
    await expect(page.locator('[data-warning="acceleration"]')).toContainText('slow and fast differ by 32%');
    await page.getByRole('button', { name: 'Keep it all the same' }).click();
    expect((await settingsOf(page)).hand.scales[0]?.acceleration).toBeCloseTo(300 / 950, 6);
  });
});
