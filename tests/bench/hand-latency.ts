// From the page's handler of a real mouse movement to the worker that simulates, and on to the tick that uses it, in the built page
// in a real browser, before the arc and while a plate is cut, with and without work that keeps the page's thread busy. Reports;
// asserts nothing. Needs `npm run build` first.
import { chromium, type Page, type Worker } from '@playwright/test';
import { browserArguments, findBrowser } from '../../electron/bootstrap/find-browser.mjs';
import type { SteppedTick } from '../../renderer/bench/worker-messages.ts';
import { benchEye, strikeWithMouse } from '../end-to-end/hands.ts';
import { callHost } from '../end-to-end/imported-run.ts';
import { openApp, openBench } from '../end-to-end/page.ts';
import { startHost, temporaryFolder } from '../end-to-end/start-host.ts';
import { type Spread, spreadOf } from './statistics.ts';
import { TAB_PLATE } from './tab-drill.ts';

/** All of it in ms. */
export interface HandLatency {
  name: string;
  /** Movements that were followed. */
  events: number;
  /** The device's own stamp to the handler, which is what a busy page costs; handler to arrival in the worker. */
  toHandlerMs: Spread;
  toWorkerMs: Spread;
  /** Handler to the moment at which the tick of that movement is wanted: the wait on purpose, in which the rest of the movement arrives. */
  onPurposeMs: Spread;
  /** From when it is wanted to when that tick has been stepped. */
  beyondMs: Spread;
}

interface Handled {
  atMs: number;
  /** The moment the device gave, on the page's own clock. */
  stampMs: number;
}

const MOVES = 400;
const EVERY_MS = 12;
/** Until the engine has compiled what is hot. */
const FIRST_MOVES = 150;
/** Of each 16 ms the page's thread is busy for this long: as on a machine that can hardly draw. */
const BUSY_MS = 12;
const CUT_MM_PER_S = 11;

/** Stamps, in the page, the moment a handler begins for each movement. */
async function watchPage(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const handled: { atMs: number; stampMs: number }[] = [];
    Object.assign(window, { handled });
    window.addEventListener(
      'pointerrawupdate',
      (event) => {
        const parts = (event as PointerEvent).getCoalescedEvents();
        for (const { timeStamp } of parts.length > 0 ? parts : [event])
          handled.push({ atMs: performance.now(), stampMs: timeStamp });
      },
      { capture: true },
    );
  });
}

/** Stamps each movement as it reaches the worker, before the worker's own handler has it, on the page's clock. */
async function watchWorker(page: Page, worker: Worker): Promise<void> {
  const timeOriginMs = await page.evaluate(() => performance.timeOrigin);
  await worker.evaluate((timeOriginMs) => {
    const scope = self as unknown as {
      onmessage: (event: MessageEvent) => void;
      postMessage: (message: { kind: string; steps: unknown[] }, transfer: Transferable[]) => void;
      arrived: number[];
      steps: unknown[];
    };
    const handle = scope.onmessage;
    const post = scope.postMessage;
    scope.arrived = [];
    scope.onmessage = (event) => {
      if (event.data.kind === 'hand') {
        const atMs = performance.timeOrigin - timeOriginMs + performance.now();
        for (let n = 0; n < event.data.events.length; n += 1) scope.arrived.push(atMs);
      }
      handle.call(scope, event);
    };
    scope.postMessage = (message, transfer) => {
      if (message.kind === 'watched') scope.steps = message.steps;
      else post.call(scope, message, transfer);
    };
  }, timeOriginMs);
}

/** What was noted since the last look: arrivals in the worker, and the ticks it stepped. */
async function lookAtWorker(worker: Worker): Promise<{ arrived: number[]; steps: SteppedTick[] }> {
  return await worker.evaluate(() => {
    const scope = self as unknown as {
      onmessage: (event: { data: { kind: string } }) => void;
      arrived: number[];
      steps: SteppedTick[];
    };
    scope.onmessage({ data: { kind: 'watch' } });
    return { arrived: scope.arrived.splice(0), steps: scope.steps };
  });
}

async function setBusy(page: Page, busy: boolean): Promise<void> {
  await page.evaluate(
    ({ busy, BUSY_MS }) => {
      const scope = window as unknown as { loading?: ReturnType<typeof setInterval> };
      clearInterval(scope.loading);
      if (!busy) return;
      scope.loading = setInterval(() => {
        const until = performance.now() + BUSY_MS;
        while (performance.now() < until);
      }, 16);
    },
    { busy, BUSY_MS },
  );
}

/** Like a mouse, this does not wait for the page to have taken one movement before it makes the next. */
async function movements(page: Page, count: number, placeAt: (elapsedMs: number) => { x: number; y: number }): Promise<void> {
  const moves: Promise<void>[] = [];
  const began = performance.now();
  for (let n = 0; n < count; n += 1) {
    const { x, y } = placeAt(performance.now() - began);
    moves.push(page.mouse.move(x, y));
    await new Promise((resolve) => setTimeout(resolve, EVERY_MS));
  }
  await Promise.all(moves);
}

function waits(handled: readonly Handled[], arrived: readonly number[], steps: readonly SteppedTick[]) {
  const onPurpose: number[] = [];
  const beyond: number[] = [];
  handled.forEach(({ atMs, stampMs }, n) => {
    // The first tick at or after the movement that was stepped once the worker knew of it.
    const used = steps.find((step) => step.atMs >= stampMs && step.steppedMs >= (arrived[n] ?? Number.NaN));
    if (!used) return;
    const wantedMs = Math.max(atMs, used.atMs + used.waitMs);
    onPurpose.push(wantedMs - atMs);
    beyond.push(used.steppedMs - wantedMs);
  });
  return { onPurposeMs: spreadOf(onPurpose), beyondMs: spreadOf(beyond) };
}

async function measure(page: Page, worker: Worker, name: string, busy: boolean, move: () => Promise<void>): Promise<HandLatency> {
  await setBusy(page, busy);
  await page.waitForTimeout(300);
  await lookAtWorker(worker);
  await page.evaluate(() => {
    (window as unknown as { handled: unknown[] }).handled.length = 0;
  });
  await move();
  await page.waitForTimeout(500);
  const { arrived, steps } = await lookAtWorker(worker);
  const handled = await page.evaluate(() => (window as unknown as { handled: Handled[] }).handled);
  if (arrived.length !== handled.length)
    throw new Error(`${handled.length} movements were handled and ${arrived.length} reached the worker: they cannot be paired.`);
  return {
    name,
    events: handled.length,
    toHandlerMs: spreadOf(handled.map(({ atMs, stampMs }) => atMs - stampMs)),
    toWorkerMs: spreadOf(arrived.map((atMs, n) => atMs - (handled[n]?.atMs ?? Number.NaN))),
    ...waits(handled, arrived, steps),
  };
}

/** Measures on one bench, the scene drawn at the lightest tier: before the arc, then while the plate is cut along its line. */
export async function measureHandLatency(): Promise<HandLatency[]> {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: browserArguments() });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
    await watchPage(page);
    await openApp(page, host);
    // What a machine without a graphics card gets; to find that out takes a while, in which it draws slowly.
    await callHost(page, 'setSettings', { qualityTier: 'lite' });
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    const worker = page.workers().at(-1);
    if (!worker) throw new Error('The bench has no worker.');
    await watchWorker(page, worker);
    const eye = await benchEye(page, TAB_PLATE);
    const waver = (elapsedMs: number) => eye({ xMm: -12 + (elapsedMs % 1000) / 100, yMm: 60 }, 8);
    await movements(page, FIRST_MOVES, waver);
    const results: HandLatency[] = [];
    for (const busy of [false, true]) {
      const name = busy ? 'before the arc, page kept busy 12 of each 16 ms' : 'before the arc, page at ease';
      results.push(await measure(page, worker, name, busy, () => movements(page, MOVES, waver)));
    }

    await setBusy(page, false);
    let fromMm = 1;
    await strikeWithMouse(page, eye, { xMm: fromMm, yMm: 60 });
    for (const busy of [false, true]) {
      const name = busy ? 'cutting, page kept busy 12 of each 16 ms' : 'cutting, page at ease';
      const onwards = (elapsedMs: number) => eye({ xMm: fromMm + (elapsedMs / 1000) * CUT_MM_PER_S, yMm: 60 });
      results.push(
        await measure(page, worker, name, busy, async () => {
          const began = performance.now();
          await movements(page, MOVES, onwards);
          fromMm += ((performance.now() - began) / 1000) * CUT_MM_PER_S;
        }),
      );
    }
    return results;
  } finally {
    await browser.close();
    await host.stop();
    folder.remove();
  }
}
