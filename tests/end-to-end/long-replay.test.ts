import { expect, test } from '@playwright/test';
import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  encodeHandLog,
  type HandTick,
  quantiseHand,
  TICK_HZ,
  toBase64,
} from '../../sim-core/index.ts';
import { callHost, openRun } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const SECONDS = 300;
const CHUNK_TICKS = 4800;
const SEEKS = [0.5, 0.02, 0.98, 0.33, 0.64, 0.91, 0.12, 0.77, 0.45, 0.61, 0.05, 0.999];
/** The slider is a few hundred pixels wide. */
const SLIDER_SHARE = 0.005;

/** Five minutes of a slow hand that goes to and fro over the plate, one line beside the other. */
function longRun(): HandTick[] {
  return Array.from({ length: SECONDS * TICK_HZ }, (_, n) => {
    const travelled = Math.max(0, n / TICK_HZ - 2) * 7;
    const line = Math.floor(travelled / 150);
    const along = travelled % 150;
    return quantiseHand({
      xMm: line % 2 === 0 ? along : 150 - along,
      yMm: 8 + line * 5,
      heightMm: 1.5,
      leanXDeg: 0,
      leanYDeg: 0,
      trigger: true,
    });
  });
}

test('every moment of a five-minute run is shown, wherever it is gone to', async ({ page }) => {
  test.setTimeout(300_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const { runId } = await callHost<{ runId: string }>(page, 'beginRun', {
      drillId: 'hanger-tab-straight-6',
      seed: 7,
      personId: null,
      hand: { kind: 'script', name: 'to and fro' },
      coreVersion: CORE_VERSION,
    });
    const ticks = longRun();
    for (let first = 0; first < ticks.length; first += CHUNK_TICKS) {
      const log = createHandLog();
      const part = ticks.slice(first, first + CHUNK_TICKS);
      for (const tick of part) appendHandTick(log, tick);
      await callHost(page, 'appendToRun', {
        runId,
        sequence: first / CHUNK_TICKS,
        firstTick: first,
        tickCount: part.length,
        inputs: toBase64(encodeHandLog(log)),
      });
    }
    await callHost(page, 'abandonRun', { runId });
    await openRun(page, runId);
    await reviewReady(page);

    const took: number[] = [];
    for (const share of SEEKS) {
      const box = await page.locator('.scrub-track').boundingBox();
      if (!box) throw new Error('The replay has no slider.');
      const before = await page.locator('.review').getAttribute('data-tick');
      await page.mouse.click(box.x + box.width * share, box.y + box.height / 2);
      await expect(page.locator('.review')).not.toHaveAttribute('data-tick', before ?? '');
      const asked = share * ticks.length;
      const shown = async () => Math.abs(Number(await page.locator('.review').getAttribute('data-tick')) - asked);
      await expect.poll(shown).toBeLessThan(SLIDER_SHARE * ticks.length);
      await page.waitForTimeout(400);
      took.push(Number(await page.locator('.review').getAttribute('data-seek-core-ms')));
    }
    // Told, not judged: how long it takes is for the benchmark.
    console.log(`seeks in a ${SECONDS} s run, ms in the worker: ${took.map((ms) => ms.toFixed(1)).join(' ')}`);
  } finally {
    await host.stop();
    folder.remove();
  }
});
