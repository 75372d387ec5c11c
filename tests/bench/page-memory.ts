// What the page holds on to from run to run: a cut, its review, and again. Every run goes through the worker that cuts, the scene, the
// records and the review room. Reports; asserts nothing. Needs `npm run build`.
import { type CDPSession, chromium } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { benchEye, strikeWithMouse, sweep } from '../end-to-end/hands.ts';
import { openApp, openBench, reviewReady, toThePlate } from '../end-to-end/page.ts';
import { startHost, temporaryFolder } from '../end-to-end/start-host.ts';
import { CUT_MM_PER_S, START_MM, TAB_LINE_MM, TAB_PLATE } from './tab-drill.ts';

export interface PageHeld {
  /** Runs that have been cut and reviewed. */
  runs: number;
  /** After collection, in the review room: script's heap, MB, elements of the document, listeners, and workers. */
  heapMb: number;
  nodes: number;
  listeners: number;
  workers: number;
}

const CUT_MM = 20;
const RUNS = 24;
const LOOK_EVERY = 4;

export async function pageMemory(): Promise<PageHeld[]> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    const inspector = await page.context().newCDPSession(page);
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    const eye = await benchEye(page, TAB_PLATE);
    const held: PageHeld[] = [];
    for (let runs = 1; runs <= RUNS; runs += 1) {
      await strikeWithMouse(page, eye, { xMm: START_MM, yMm: TAB_LINE_MM });
      await sweep(page, eye, (travelledMm) => ({ xMm: START_MM + travelledMm, yMm: TAB_LINE_MM }), CUT_MM, CUT_MM_PER_S);
      await page.mouse.up();
      await page.keyboard.press('e');
      await reviewReady(page);
      if (runs % LOOK_EVERY === 0) held.push({ runs, workers: page.workers().length, ...(await heldNow(inspector)) });
      await page.getByRole('button', { name: 'Cut it again' }).click();
      await toThePlate(page);
    }
    return held;
  } finally {
    await browser.close();
    await host.stop();
    folder.remove();
  }
}

async function heldNow(inspector: CDPSession): Promise<Pick<PageHeld, 'heapMb' | 'nodes' | 'listeners'>> {
  await inspector.send('HeapProfiler.collectGarbage');
  const { usedSize } = await inspector.send('Runtime.getHeapUsage');
  const { nodes, jsEventListeners } = await inspector.send('Memory.getDOMCounters');
  return { heapMb: usedSize / 1024 / 1024, nodes, listeners: jsEventListeners };
}
