import { expect, test } from '@playwright/test';
import { holdPad, plugInPad } from './gamepad.ts';
import { untilStep } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

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
    await holdPad(page, { axes: [GENTLE, 0, 0, 0] });
    await untilStep(page, 'lower');
    await holdPad(page, {});
    await holdPad(page, { buttons: { [LEFT_TRIGGER]: 0.35 } });
    await untilStep(page, 'strike');
    await holdPad(page, { axes: [GENTLE, 0, 0, 0], buttons: { [RIGHT_TRIGGER]: 1 } });
    await page.locator('[data-arc="transferred"]').waitFor();
    // The arc reaches out to the edge; the tip has still to come over it.
    await page.waitForTimeout(120);
    await holdPad(page, { buttons: { [RIGHT_TRIGGER]: 1 } });
    await untilStep(page, 'move', 'faster');
    await holdPad(page, { axes: [GENTLE, 0, 0, 0], buttons: { [RIGHT_TRIGGER]: 1 } });
    await untilStep(page, 'release');
    await holdPad(page, {});
    await reviewReady(page);
    expect(await figureOf(page, '[data-measure="severance"]', 'mark')).toBeGreaterThan(30);
    expect(await figureOf(page, '[data-measure="steadiness"]', 'mark')).toBeGreaterThan(60);
  } finally {
    await host.stop();
    folder.remove();
  }
});
