/**
 * Makes the pictures of the README from real runs: `npm run pictures`. They are written to renderer/pictures/. Needs an installed
 * browser; takes about two minutes without a graphics card.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { chromium, type Page } from '@playwright/test';
import { buildStale } from '../../electron/bootstrap/build.mjs';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { cutWithKeys, untilStep } from './hands.ts';
import { callHost, importRun, openRun, runOfHand } from './imported-run.ts';
import { openApp, openBench, reviewReady } from './page.ts';
import { openRig, prepareRig, RIGHT_FOR_SIX } from './rig.ts';
import { joinPictures, openSceneRun, pictureAt, prepareScene, type SceneRun } from './scene-states.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const FOLDER = join(import.meta.dirname, '..', '..', 'renderer', 'pictures');
const SIZE = { width: 1440, height: 860 };
const SETTLE_MS = 2500;

async function take(page: Page, name: string): Promise<void> {
  await page.waitForTimeout(SETTLE_MS);
  await page.screenshot({ path: join(FOLDER, `${name}.png`) });
  process.stdout.write(`renderer/pictures/${name}.png\n`);
}

/** Six moments of a run each, from runs that are the same every time; seconds from, and apart. */
const STRIPS: Record<string, SceneRun & { fromS: number; everyS: number }> = {
  'strip-good': { drillId: 'hanger-tab-straight-6', fault: null, station: 'Shoulder', fromS: 1.2, everyS: 2.7 },
  'strip-slow': { drillId: 'hanger-tab-straight-6', fault: 'too-slow', station: 'Below', fromS: 3, everyS: 7 },
  'strip-fast': { drillId: 'hanger-tab-straight-6', fault: 'too-fast', station: 'Shoulder', fromS: 1, everyS: 1.7 },
  'strip-pierce': { drillId: 'rudder-washer-rolling-12', fault: null, station: 'Beside', fromS: 0.9, everyS: 0.5 },
};
const FRAMES = 6;

async function takeStrips(page: Page): Promise<void> {
  await prepareScene(page);
  for (const [name, strip] of Object.entries(STRIPS)) {
    await openSceneRun(page, strip);
    const frames: Buffer[] = [];
    for (let n = 0; n < FRAMES; n += 1) frames.push(await pictureAt(page, strip.fromS + n * strip.everyS));
    writeFileSync(join(FOLDER, `${name}.png`), await joinPictures(page, frames, 3, 320, 184));
    process.stdout.write(`renderer/pictures/${name}.png\n`);
  }
}

await buildStale((line: string) => process.stdout.write(`${line}\n`));
mkdirSync(FOLDER, { recursive: true });
const records = temporaryFolder();
const host = await startHost(records.path);
const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
try {
  const context = await browser.newContext({ viewport: SIZE, colorScheme: 'light' });
  const page = await context.newPage();
  await openApp(page, host);
  await callHost(page, 'setSettings', { qualityTier: 'full', theme: 'light' });
  for (const fault of ['too-fast', 'leaning', null] as const)
    await importRun(page, runOfHand('hanger-tab-straight-6', fault, 11));
  const curve = await importRun(page, runOfHand('keel-saddle-curve-6', null, 4));
  await page.reload();
  await page.getByRole('button', { name: 'Understood' }).click();
  await page.getByRole('button', { name: 'New apprentice' }).click();

  await openRig(page, /Go to the bench: Trailer step/);
  await prepareRig(page, { ...RIGHT_FOR_SIX, clamp: /right, near; bare metal/, shade: '5' });
  await page.locator('.bench-rig').evaluate((room) => room.scrollTo(0, 0));
  await take(page, 'rig-check');
  await page.getByRole('button', { name: 'Home' }).click();

  await page.getByRole('button', { name: /Go to the bench: Trailer hanger tab/ }).click();
  await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
  await take(page, 'card');
  await page.getByRole('button', { name: 'Home' }).click();
  const speedMmPerS = await openBench(page, /Go to the bench: Trailer hanger tab/);
  const cutting = cutWithKeys(page, { speedMmPerS });
  await untilStep(page, 'move', 'faster');
  await page.waitForTimeout(5000);
  await take(page, 'bench');
  await cutting;
  await reviewReady(page);
  await take(page, 'review');
  await page.getByRole('button', { name: 'Home' }).click();
  await page.locator('[data-run-state="finished"]').first().waitFor();
  await take(page, 'home');

  await callHost(page, 'setSettings', { theme: 'dark' });
  await openRun(page, curve);
  await page.reload();
  await page.getByRole('button', { name: 'Understood' }).click();
  await reviewReady(page);
  const track = await page.locator('.scrub-track').boundingBox();
  if (track) await page.mouse.click(track.x + track.width * 0.6, track.y + track.height / 2);
  await page.getByRole('button', { name: 'Side', exact: true }).click();
  await take(page, 'replay-evening');

  await takeStrips(page);
} finally {
  await browser.close();
  await host.stop();
  records.remove();
}
