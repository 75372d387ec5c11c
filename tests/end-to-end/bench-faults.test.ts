import { expect, type Page, test } from '@playwright/test';
import { holdPad, plugInPad } from './gamepad.ts';
import { openApp, openBench } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const RIGHT_TRIGGER = 7;

/** Takes the graphics away from the canvas of the bench, as a driver that starts anew does; gives the way to give them back. */
async function loseGraphics(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const gl = document.querySelector('canvas')?.getContext('webgl2');
    const extension = gl?.getExtension('WEBGL_lose_context');
    Object.assign(window, { extension });
    extension?.loseContext();
  });
  return () => page.evaluate(() => (window as unknown as { extension: { restoreContext(): void } }).extension.restoreContext());
}

/** How much there is to see in a frame of the bench: a picture that is blank packs to next to nothing. */
async function pictureBytes(page: Page, frame = '.bench-stage'): Promise<number> {
  const box = await page.locator(frame).boundingBox();
  if (!box) throw new Error(`The bench has no ${frame}.`);
  // Below the sentence that tells of the loss.
  const clip = { x: box.x, y: box.y + box.height / 3, width: box.width, height: (box.height * 2) / 3 };
  return (await page.screenshot({ clip, timeout: 60_000 })).length;
}

test('a bench held by its list of keys goes on by a key, once the list is closed: the plate has the focus again', async ({
  page,
}) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    const stage = page.locator('.bench-stage');
    const held = page.locator('.bench-held');
    await stage.press('ArrowRight');
    await page.getByRole('button', { name: 'Keys', exact: true }).press('Enter');
    await expect(held).toBeVisible();
    await page.getByRole('button', { name: 'Close' }).press('Enter');
    await expect(stage).toBeFocused();
    await expect(held).toContainText('Move the torch to go on');
    await page.keyboard.press('ArrowRight');
    await expect(held).toBeHidden();

    await page.getByRole('button', { name: 'Keys', exact: true }).press('Enter');
    await page.getByRole('button', { name: 'Change…' }).press('Enter');
    await page.getByRole('tab', { name: 'Gamepad', exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await expect(stage).toBeFocused();
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('the view under the plate that was hidden is drawn again when it is shown, and where the bench was opened without it', async ({
  page,
}) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    const frame = page.locator('.under-frame');
    const drawn = () => expect.poll(() => pictureBytes(page, '.under-frame'), { timeout: 60_000 }).toBeGreaterThan(whole / 2);
    const whole = await pictureBytes(page, '.under-frame');
    await page.getByRole('button', { name: 'Hide the view under the plate' }).click();
    await expect(frame).toBeHidden();
    await page.getByRole('button', { name: 'Show the view under the plate' }).click();
    await drawn();

    await page.getByRole('button', { name: 'Hide the view under the plate' }).click();
    await page.getByRole('button', { name: 'Leave', exact: true }).click();
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await expect(frame).toBeHidden();
    await page.getByRole('button', { name: 'Show the view under the plate' }).click();
    await drawn();
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('picture lost, gamepad unplugged, host killed in one run: it goes on, nothing burns by itself, and each is said', async ({
  page,
  context,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  let host = await startHost(folder.path);
  try {
    await plugInPad(page);
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await expect(page.locator('.bench-foot')).toContainText('Gamepad ready');
    await holdPad(page, { buttons: { [RIGHT_TRIGGER]: 1 } });
    const arc = page.locator('[data-arc]').first();
    await expect(arc).not.toHaveAttribute('data-arc', 'off');

    const whole = await pictureBytes(page);
    const giveBack = await loseGraphics(page);
    const lost = page.getByText('let go of the picture');
    await expect(lost).toBeVisible();
    expect(await pictureBytes(page)).toBeLessThan(whole / 4);
    await giveBack();
    await expect(lost).toBeHidden();
    await expect.poll(() => pictureBytes(page), { timeout: 60_000 }).toBeGreaterThan(whole / 2);

    await page.evaluate(() => {
      navigator.getGamepads = () => [];
    });
    await expect(page.getByRole('alert')).toContainText('the trigger was released');
    await expect(arc).toHaveAttribute('data-arc', /^(post-flow|off)$/);

    await host.kill();
    await expect(page.getByRole('alert')).toContainText('keep this page open', { timeout: 30_000 });

    await page.close();
    host = await startHost(folder.path);
    const again = await context.newPage();
    await openApp(again, host);
    await expect(again.locator('[data-run-state="unfinished"]')).toHaveCount(1);
  } finally {
    await host.stop();
    folder.remove();
  }
});
