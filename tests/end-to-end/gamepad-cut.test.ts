import { expect, type Page, test } from '@playwright/test';
import { untilStep } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** Stands in for a pad: the page asks the browser for it, and the test holds its sticks. */
async function plugInPad(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const pad = {
      id: 'stand-in',
      index: 0,
      connected: true,
      mapping: 'standard',
      timestamp: 0,
      axes: [0, 0, 0, 0],
      buttons: Array.from({ length: 17 }, () => ({ pressed: false, touched: false, value: 0 })),
    };
    Object.assign(window, { pad });
    navigator.getGamepads = () => [pad as unknown as Gamepad];
  });
}

interface PadState {
  axes?: number[];
  buttons?: Record<number, number>;
}

async function hold(page: Page, state: PadState): Promise<void> {
  await page.evaluate(({ axes = [0, 0, 0, 0], buttons = {} }) => {
    const { pad } = window as unknown as { pad: { axes: number[]; buttons: { pressed: boolean; value: number }[] } };
    pad.axes = axes;
    pad.buttons = pad.buttons.map((_, n) => ({ pressed: (buttons[n] ?? 0) > 0.5, touched: false, value: buttons[n] ?? 0 }));
  }, state);
}

const RIGHT_TRIGGER = 7;
const LEFT_TRIGGER = 6;
/** Deflection that the pad's curve turns into about 8 mm/s. */
const GENTLE = 0.444;

test('a plate is cut with a gamepad', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await plugInPad(page);
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await expect(page.locator('.bench-foot')).toContainText('Gamepad ready');
    // Near the edge, down, then on to it with the pilot lit, until the arc takes hold of the metal.
    await hold(page, { axes: [GENTLE, 0, 0, 0] });
    await untilStep(page, 'lower');
    await hold(page, {});
    await hold(page, { buttons: { [LEFT_TRIGGER]: 0.5 } });
    await untilStep(page, 'strike');
    await hold(page, { axes: [GENTLE, 0, 0, 0], buttons: { [RIGHT_TRIGGER]: 1 } });
    await page.locator('[data-arc="transferred"]').waitFor();
    // The arc reaches out to the edge; the tip has still to come over it.
    await page.waitForTimeout(120);
    await hold(page, { buttons: { [RIGHT_TRIGGER]: 1 } });
    await untilStep(page, 'move', 'faster');
    await hold(page, { axes: [GENTLE, 0, 0, 0], buttons: { [RIGHT_TRIGGER]: 1 } });
    await untilStep(page, 'release');
    await hold(page, {});
    await reviewReady(page);
    expect(await figureOf(page, '[data-measure="severance"]', 'mark')).toBeGreaterThan(30);
    expect(await figureOf(page, '[data-measure="steadiness"]', 'mark')).toBeGreaterThan(60);
  } finally {
    await host.stop();
    folder.remove();
  }
});
