// How often the bench is drawn while a plate is cut, and what a frame costs the page's thread, in the built page in a real browser.
// Pinned to the lightest tier, which is what a machine without a graphics card gets. Reports; asserts nothing. Needs `npm run build`.
import { chromium, type Page } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { benchEye, strikeWithMouse, sweep } from '../end-to-end/hands.ts';
import { callHost } from '../end-to-end/imported-run.ts';
import { openApp, openBench } from '../end-to-end/page.ts';
import { startHost, temporaryFolder } from '../end-to-end/start-host.ts';
import { CUT_MM_PER_S, START_MM, TAB_LINE_MM, TAB_PLATE } from './tab-drill.ts';

export interface MiddleAndMost {
  median: number;
  p95: number;
}

export interface FrameRate {
  name: string;
  frames: number;
  framesPerSecond: number;
  /** Between one frame and the next, ms. */
  gapMs: MiddleAndMost;
  /** In the callbacks of a frame, ms. */
  scriptMs: MiddleAndMost;
}

const CUT_MM = 120;
/** What is drawn for the first time is made ready first. */
const SETTLE_MS = 3000;
const WAITING_MS = 4000;

/** Notes when each frame began, by the display's clock, and how long its callbacks took. */
async function watchFrames(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const request = window.requestAnimationFrame.bind(window);
    const frames = new Map<number, number>();
    Object.assign(window, { frames });
    window.requestAnimationFrame = (callback) =>
      request((atMs) => {
        const began = performance.now();
        callback(atMs);
        frames.set(atMs, (frames.get(atMs) ?? 0) + performance.now() - began);
      });
  });
}

async function takeFrames(page: Page): Promise<[number, number][]> {
  return await page.evaluate(() => {
    const { frames } = window as unknown as { frames: Map<number, number> };
    const taken = [...frames];
    frames.clear();
    return taken;
  });
}

function middleAndMost(values: readonly number[]): MiddleAndMost {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.floor(share * sorted.length)] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95) };
}

function rateOf(name: string, frames: readonly [number, number][]): FrameRate {
  const gaps = frames.slice(1).map(([atMs], n) => atMs - (frames[n]?.[0] ?? Number.NaN));
  return {
    name,
    frames: frames.length,
    framesPerSecond: (1000 * gaps.length) / gaps.reduce((sum, gap) => sum + gap, 0),
    gapMs: middleAndMost(gaps),
    scriptMs: middleAndMost(frames.map(([, scriptMs]) => scriptMs)),
  };
}

/** Measures one bench before the arc and while its line is cut with the mouse. */
export async function measureFrameRate(): Promise<FrameRate[]> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    await watchFrames(page);
    await openApp(page, host);
    await callHost(page, 'setSettings', { qualityTier: 'lite' });
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await page.waitForTimeout(SETTLE_MS);
    await takeFrames(page);
    await page.waitForTimeout(WAITING_MS);
    const waiting = rateOf('torch waiting', await takeFrames(page));
    const eye = await benchEye(page, TAB_PLATE);
    await strikeWithMouse(page, eye, { xMm: START_MM, yMm: TAB_LINE_MM });
    await takeFrames(page);
    await sweep(page, eye, (travelledMm) => ({ xMm: START_MM + travelledMm, yMm: TAB_LINE_MM }), CUT_MM, CUT_MM_PER_S);
    return [waiting, rateOf('cutting', await takeFrames(page))];
  } finally {
    await browser.close();
    await host.stop();
    folder.remove();
  }
}
