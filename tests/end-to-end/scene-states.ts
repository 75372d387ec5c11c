import type { Page } from '@playwright/test';
import { type FaultHandId, type RunFile, TICK_HZ } from '../../sim-core/index.ts';
import { callHost, importRun, openRun, runOfHand } from './imported-run.ts';
import { reviewReady } from './page.ts';

/** A run that is the same on every machine, and a stand from which it is looked at. */
export interface SceneRun {
  drillId: string;
  fault: FaultHandId | null;
  station: 'Operator' | 'Shoulder' | 'Beside' | 'Above' | 'Below' | 'Side';
}

const SEED = 11;
const APART_MS = 400;
const LOOKS_HIGH = 60;
/** What stands before the picture on the page, and is no part of it. */
const BARE = '.stage-signs, .stations, .review-under-name { opacity: 0 !important; }';

/** The scene of a review in the middle tier, by day, at one size: what is shown then hangs on the run alone. */
export async function prepareScene(page: Page): Promise<void> {
  await page.setViewportSize({ width: 1280, height: 720 });
  await callHost(page, 'setSettings', { qualityTier: 'middle', theme: 'light', calmLight: 'off', soundOn: false });
}

/** Opens a run for its pictures; the length of the run in ticks. */
export async function openSceneRun(page: Page, { drillId, fault, station }: SceneRun): Promise<number> {
  const run: RunFile = runOfHand(drillId, fault, SEED);
  await openRun(page, await importRun(page, run));
  await page.reload();
  await page.getByRole('button', { name: 'Understood' }).click();
  await reviewReady(page);
  // The page allows no styles in its text; a sheet that a script makes is not one.
  await page.evaluate((rules) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(rules);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }, BARE);
  await page.getByRole('button', { name: station, exact: true }).click();
  return Number(await page.locator('.scrub input[type="range"]').getAttribute('max'));
}

/** The main view at a moment, once two looks at it are the same. */
export async function pictureAt(page: Page, seconds: number): Promise<Buffer> {
  await page.locator('.scrub input[type="range"]').fill(String(Math.round(seconds * TICK_HZ)));
  const box = await page.locator('.review-stage').boundingBox();
  if (!box) throw new Error('The review shows no plate.');
  const look = () => page.screenshot({ clip: box, animations: 'disabled', caret: 'hide' });
  // A picture that stands still is drawn again, sharp, after a short while.
  await page.waitForTimeout(1000);
  let before = await look();
  for (let n = 0; n < LOOKS_HIGH; n += 1) {
    await page.waitForTimeout(APART_MS);
    const now = await look();
    if (now.equals(before)) return now;
    before = now;
  }
  throw new Error(`The picture at ${seconds} s did not come to rest.`);
}

/** Pictures side by side in rows, each brought to one size, as one PNG. */
export async function joinPictures(page: Page, pictures: readonly Buffer[], columns: number, width: number, height: number) {
  const url = await page.evaluate(
    async ({ sources, across, w, h }) => {
      const canvas = document.createElement('canvas');
      const gap = sources.length > 1 ? 4 : 0;
      canvas.width = across * (w + gap) - gap;
      canvas.height = Math.ceil(sources.length / across) * (h + gap) - gap;
      const context = canvas.getContext('2d');
      if (!context) throw new Error('no canvas');
      context.imageSmoothingQuality = 'high';
      for (const [n, source] of sources.entries()) {
        const bytes = Uint8Array.from(atob(source), (letter) => letter.charCodeAt(0));
        const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        context.drawImage(image, (n % across) * (w + gap), Math.floor(n / across) * (h + gap), w, h);
      }
      return canvas.toDataURL('image/png');
    },
    { sources: pictures.map((picture) => picture.toString('base64')), across: columns, w: width, h: height },
  );
  return Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
}
