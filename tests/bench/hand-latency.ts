// From the page's handler of a real mouse movement to the worker that simulates, in the built page in a real browser, with and
// without work that keeps the page's thread busy. Reports; asserts nothing. Needs `npm run build` first.
import { chromium, type Page, type Worker } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import { openApp, openBench } from '../end-to-end/page.ts';
import { startHost, temporaryFolder } from '../end-to-end/start-host.ts';
import { type Spread, spreadOf } from './statistics.ts';

export interface HandLatency {
  /** Movements that were followed. */
  events: number;
  /** ms: handler to arrival in the worker; the device's own stamp to the handler, which is what a busy page costs. */
  toWorkerMs: Spread;
  toHandlerMs: Spread;
}

const MOVES = 400;
const EVERY_MS = 12;
/** Of each 16 ms the page's thread is busy for this long: as on a machine that can hardly draw. */
const BUSY_MS = 12;

/** Stamps, in the page, the moment a handler begins for each event, and how many events each message to the worker took along. */
async function watchPage(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const handled: { atMs: number; deviceMs: number }[] = [];
    Object.assign(window, { handled });
    window.addEventListener(
      'pointerrawupdate',
      (event) => {
        for (let n = 0; n < Math.max(1, (event as PointerEvent).getCoalescedEvents().length); n += 1)
          handled.push({ atMs: performance.timeOrigin + performance.now(), deviceMs: performance.timeOrigin + event.timeStamp });
      },
      { capture: true },
    );
  });
}

/** Stamps each hand message as it reaches the worker, before the worker's own handler has it. */
async function watchWorker(worker: Worker): Promise<void> {
  await worker.evaluate(() => {
    const scope = self as unknown as { onmessage: (event: MessageEvent) => void; arrived: number[] };
    const handle = scope.onmessage;
    scope.arrived = [];
    scope.onmessage = (event) => {
      if (event.data.kind === 'hand')
        for (let n = 0; n < event.data.events.length; n += 1) scope.arrived.push(performance.timeOrigin + performance.now());
      handle.call(scope, event);
    };
  });
}

async function measure(page: Page, worker: Worker, busy: boolean): Promise<HandLatency> {
  await worker.evaluate(() => {
    (self as unknown as { arrived: number[] }).arrived.length = 0;
  });
  await page.evaluate(
    ({ busy, BUSY_MS }) => {
      const scope = window as unknown as { handled: unknown[]; loading?: ReturnType<typeof setInterval> };
      scope.handled.length = 0;
      clearInterval(scope.loading);
      if (!busy) return;
      scope.loading = setInterval(() => {
        const until = performance.now() + BUSY_MS;
        while (performance.now() < until);
      }, 16);
    },
    { busy, BUSY_MS },
  );
  const box = await page.locator('.bench-stage').boundingBox();
  if (!box) throw new Error('The bench has no stage.');
  const moves: Promise<void>[] = [];
  for (let n = 0; n < MOVES; n += 1) {
    moves.push(page.mouse.move(box.x + 200 + (n % 100) * 2, box.y + 200 + (n % 7)));
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
  }
  await Promise.all(moves);
  await page.waitForTimeout(500);
  const handled = await page.evaluate(() => (window as unknown as { handled: { atMs: number; deviceMs: number }[] }).handled);
  const arrived = await worker.evaluate(() => (self as unknown as { arrived: number[] }).arrived);
  if (arrived.length !== handled.length)
    throw new Error(`${handled.length} movements were handled and ${arrived.length} reached the worker: they cannot be paired.`);
  return {
    events: handled.length,
    toWorkerMs: spreadOf(arrived.map((atMs, n) => atMs - (handled[n]?.atMs ?? Number.NaN))),
    toHandlerMs: spreadOf(handled.map(({ atMs, deviceMs }) => atMs - deviceMs)),
  };
}

/** Measures both ways on one bench with the arc off and the scene drawn by whatever this machine has. */
export async function measureHandLatency(): Promise<{ free: HandLatency; busy: HandLatency }> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    await watchPage(page);
    await openApp(page, host);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    const worker = page.workers().at(-1);
    if (!worker) throw new Error('The bench has no worker.');
    await watchWorker(worker);
    return { free: await measure(page, worker, false), busy: await measure(page, worker, true) };
  } finally {
    await browser.close();
    await host.stop();
    folder.remove();
  }
}
