import { expect, type Page, test } from '@playwright/test';
import { arriveAs, handIn, staffYard } from './handed-in-run.ts';
import { figureOf, openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

const tickOf = (page: Page) => figureOf(page, '.review', 'tick');

/** Where the marker of a trace stands, as a share of the plot's width. */
async function markerOf(page: Page, trace: string): Promise<number> {
  return await page.locator(`[data-trace="${trace}"]`).evaluate((figure) => {
    const over = figure.querySelector('.u-over')?.getBoundingClientRect();
    const marker = figure.querySelector('.u-cursor-x')?.getBoundingClientRect();
    return over && marker ? (marker.right - over.left) / over.width : Number.NaN;
  });
}

/** Stands still, whether it still plays or has come to its end: a step of one tick stops it. */
async function halt(page: Page): Promise<void> {
  await page.locator('.review-stage').press(',');
  await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
}

/** Dots of a plot that have exactly the colour that traces have in the light that is on. */
async function traceDots(page: Page): Promise<number> {
  return await page.locator('[data-trace="stand-off"] canvas').evaluate((canvas) => {
    const { width, height } = canvas as HTMLCanvasElement;
    const hex = getComputedStyle(canvas).getPropertyValue('--trace').trim();
    const wanted = [1, 3, 5].map((from) => Number.parseInt(hex.slice(from, from + 2), 16));
    const dots = (canvas as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data ?? [];
    let found = 0;
    for (let n = 0; n < dots.length; n += 4)
      if (wanted.every((value, part) => Math.abs(value - (dots[n + part] ?? 0)) < 3)) found += 1;
    return found;
  });
}

test('the replay is locked to deductions, traces and notes, plays both ways at every speed, and writing is writing', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 1);
    const runId = await handIn(page, yard.apprenticeIds[0] as string, DRILL, 'too-fast', 3);
    await arriveAs(page, yard.assessorIds[0] as string, `run/${runId}`);
    await reviewReady(page);

    // A deduction leads to its moment, a quarter of a second ahead; the markers of all traces go with it.
    const deduction = page.locator('.mark [data-from-tick]').first();
    const from = Number(await deduction.getAttribute('data-from-tick'));
    await deduction.press('Enter');
    await expect.poll(() => tickOf(page)).toBe(Math.max(0, from - 60));
    const early = await markerOf(page, 'speed');
    await page.getByRole('slider', { name: 'Moment of the run' }).press('End');
    await expect.poll(() => markerOf(page, 'speed')).toBeGreaterThan(early + 0.2);
    expect(Math.abs((await markerOf(page, 'speed')) - (await markerOf(page, 'voltage')))).toBeLessThan(0.03);
    // A press on a trace goes to its moment.
    await page.locator('[data-trace="stand-off"] .u-over').click({ position: { x: 60, y: 20 } });
    await expect.poll(() => markerOf(page, 'work')).toBeLessThan(0.6);

    // On at four speeds' ends, from any camera, and back.
    const play = page.getByRole('button', { name: 'Play', exact: true });
    for (const [rate, camera] of [
      ['¼×', 'Above'],
      ['1×', 'Below'],
      ['4×', 'Side'],
    ] as const) {
      await page.getByRole('slider', { name: 'Moment of the run' }).press('Home');
      await expect.poll(() => tickOf(page)).toBe(0);
      await page.getByRole('button', { name: camera, exact: true }).click();
      await page.getByRole('radio', { name: rate, exact: true }).click();
      const began = Date.now();
      await play.click();
      await expect.poll(() => tickOf(page), { timeout: 30_000 }).toBeGreaterThan(40);
      const speed = (await tickOf(page)) / 240 / ((Date.now() - began) / 1000);
      await halt(page);
      // Never faster than it says; how much slower is a matter of the machine.
      expect(speed).toBeLessThan({ '¼×': 0.35, '1×': 1.2, '4×': 4.6 }[rate]);
    }
    await page.getByRole('slider', { name: 'Moment of the run' }).press('End');
    await expect.poll(() => markerOf(page, 'speed')).toBeGreaterThan(0.9);
    const end = await tickOf(page);
    // Slowly, so that it is still on its way when it is stopped.
    await page.getByRole('radio', { name: '½×', exact: true }).click();
    await page.getByRole('button', { name: 'Play backward' }).click();
    await expect.poll(() => tickOf(page), { timeout: 30_000 }).toBeLessThan(end - 40);
    await halt(page);
    const stopped = await tickOf(page);
    await expect.poll(() => markerOf(page, 'speed')).toBeLessThan(1);
    // Backward from near the start it comes to rest there.
    await page.getByRole('slider', { name: 'Moment of the run' }).press('Home');
    await page.getByRole('slider', { name: 'Moment of the run' }).press('PageUp');
    await page.locator('.review-stage').focus();
    await page.keyboard.press('b');
    await expect.poll(() => tickOf(page), { timeout: 30_000 }).toBe(0);
    expect(stopped).toBeLessThan(end);

    // A change of light redraws the traces in the colours of the new one.
    for (const colorScheme of ['dark', 'light'] as const) {
      await page.emulateMedia({ colorScheme });
      await expect(page.locator('html')).toHaveAttribute('data-theme', colorScheme);
      await expect.poll(() => traceDots(page)).toBeGreaterThan(50);
    }

    // Commas, full stops and spaces are written where one writes; the replay stays where it is.
    await page.getByRole('tab', { name: 'Notes' }).click();
    await page.getByRole('textbox', { name: /^Note at/ }).focus();
    await page.keyboard.type('Slow, here. Both hands, b and c.');
    await expect(page.getByRole('textbox', { name: /^Note at/ })).toHaveValue('Slow, here. Both hands, b and c.');
    expect(await tickOf(page)).toBe(0);
    await page.getByRole('button', { name: 'Pin the note' }).press('Enter');
    await page.getByRole('slider', { name: 'Moment of the run' }).press('End');
    await page.getByRole('textbox', { name: /^Note at/ }).fill('Second.');
    await page.getByRole('button', { name: 'Pin the note' }).press('Enter');
    await expect(page.locator('.note')).toHaveCount(2);
    await expect(page.locator('.scrub-pins rect')).toHaveCount(2);
    await page.getByRole('button', { name: /Slow, here/ }).press('Enter');
    await expect.poll(() => tickOf(page)).toBe(0);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
