import { expect, type Page, test } from '@playwright/test';
import { decodeHandLog, fromBase64, readHandTick } from '../../sim-core/index.ts';
import { expectSound } from './expect-sound.ts';
import { holdPad, plugInPad } from './gamepad.ts';
import { benchEye } from './hands.ts';
import { openApp, openBench, reviewReady } from './page.ts';
import { recordOf, runIdOf } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const LEFT_TRIGGER = 6;

interface PenInit {
  clientX?: number;
  clientY?: number;
  buttons?: number;
  button?: number;
  pressure?: number;
  tiltX?: number;
  tiltY?: number;
}

/** What a pen would make the browser tell; the page's own listeners take it from there. */
async function penEvents(page: Page, events: { type: string; init: PenInit }[]): Promise<void> {
  await page.evaluate(async (events) => {
    const stage = document.querySelector('.bench-stage');
    for (const { type, init } of events) {
      const name = type === 'move' ? ('onpointerrawupdate' in window ? 'pointerrawupdate' : 'pointermove') : type;
      stage?.dispatchEvent(new PointerEvent(name, { pointerType: 'pen', pointerId: 7, isPrimary: true, bubbles: true, ...init }));
      await new Promise((resolve) => setTimeout(resolve, 30));
    }
  }, events);
}

/** What the worker is told of the mouse while the page's thread stands still, beside what the browser has kept of each event. */
async function moveWhileBusy(page: Page): Promise<{ gathered: number[][]; reached: number[] }> {
  const worker = page.workers().at(-1);
  if (!worker) throw new Error('The bench has no worker.');
  await worker.evaluate(() => {
    const scope = self as unknown as { onmessage: (event: MessageEvent) => void; reached: number[] };
    const handle = scope.onmessage;
    scope.reached = [];
    scope.onmessage = (event) => {
      if (event.data.kind === 'hand') for (const { atMs } of event.data.events) scope.reached.push(atMs);
      handle.call(scope, event);
    };
  });
  const box = await page.locator('.bench-stage').boundingBox();
  if (!box) throw new Error('The bench has no stage.');
  await page.mouse.move(box.x + 200, box.y + 200);
  const gathered = page.evaluate(
    () =>
      new Promise<number[][]>((resolve) => {
        const seen: number[][] = [];
        const name = 'onpointerrawupdate' in window ? 'pointerrawupdate' : 'pointermove';
        window.addEventListener(name, (event) => {
          seen.push((event as PointerEvent).getCoalescedEvents().map(({ timeStamp }) => timeStamp));
        });
        setTimeout(() => {
          const until = performance.now() + 400;
          while (performance.now() < until);
          setTimeout(() => resolve(seen), 400);
        }, 100);
      }),
  );
  await page.waitForTimeout(150);
  const moves: Promise<void>[] = [];
  for (let n = 1; n <= 12; n += 1) {
    moves.push(page.mouse.move(box.x + 200 + 3 * n, box.y + 200));
    await new Promise((resolve) => setTimeout(resolve, 15));
  }
  await Promise.all(moves);
  const told = await gathered;
  return { gathered: told, reached: await worker.evaluate(() => (self as unknown as { reached: number[] }).reached) };
}

test('keys are changed where they are told; a pen moves, leans and fires; a pad is felt when the tip stops hard', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await plugInPad(page);
    await page.addInitScript(() => {
      const felt: unknown[] = [];
      const pad = (window as unknown as { pad: { vibrationActuator: unknown } }).pad;
      pad.vibrationActuator = {
        playEffect: (_: string, effect: unknown) => {
          felt.push(effect);
          return Promise.resolve('complete');
        },
      };
      Object.assign(window, { felt });
    });
    const complaints = await openApp(page, host);

    await page.getByRole('button', { name: 'How it looks' }).click();
    await page.locator('.choice', { hasText: 'Hand and keys' }).getByRole('button', { name: 'Change…' }).click();
    await page.getByRole('tab', { name: 'Keys', exact: true }).click();
    const ask = (action: string) => page.getByRole('button', { name: `Change ${action}`, exact: true }).press('Enter');
    const row = (action: string) => page.locator(`[data-action="${action}"] td`).first();
    await expectSound(page, 'hand and keys');
    await ask('Trigger');
    await page.keyboard.press('a');
    await expect(page.locator('.controls-panel .notice')).toContainText('A already does this: Lean left.');
    await expect(row('trigger')).toHaveText('Space');
    await ask('Trigger');
    await page.keyboard.press('x');
    await expect(row('trigger')).toHaveText('X');
    await ask('Trigger');
    await page.keyboard.press('Escape');
    await expect(row('trigger')).toHaveText('X');
    await page.getByRole('tab', { name: 'Gamepad', exact: true }).click();
    await ask('Trigger');
    await expect(row('trigger')).toHaveText('…');
    await holdPad(page, { buttons: { 1: 1 } });
    await expect(row('trigger')).toHaveText('right face button');
    await holdPad(page, {});
    await page.getByRole('button', { name: 'Close' }).click();

    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await page.getByRole('button', { name: 'Keys', exact: true }).click();
    await expect(page.locator('.keys-table')).toContainText('Hold X');
    await expect(page.locator('.keys-table')).toContainText('Right face button');
    await page.getByRole('button', { name: 'Close' }).click();

    const { gathered, reached } = await moveWhileBusy(page);
    expect(Math.max(...gathered.map((parts) => parts.length))).toBeGreaterThan(1);
    const stamps = gathered.flat();
    expect(new Set(stamps).size).toBe(stamps.length);
    // All but those of movements before the looking began.
    expect(reached.slice(-stamps.length)).toEqual(stamps);

    await page.locator('.bench-stage').focus();
    await holdPad(page, { buttons: { [LEFT_TRIGGER]: 1 } });
    await expect
      .poll(() => page.evaluate(() => (window as unknown as { felt: unknown[] }).felt.length), { timeout: 60_000 })
      .toBe(1);
    await holdPad(page, { buttons: { 4: 1 } });
    await page.waitForTimeout(400);
    await holdPad(page, {});

    const eye = await benchEye(page, { lengthMm: 160, widthMm: 90 });
    const over = (xMm: number) => {
      const { x, y } = eye({ xMm, yMm: 60 });
      return { clientX: x, clientY: y };
    };
    const held = { buttons: 1, button: 0, pressure: 0.7, tiltX: 24, tiltY: -10 };
    await penEvents(page, [
      { type: 'pointerenter', init: over(60) },
      { type: 'move', init: { ...over(60), tiltX: 24, tiltY: -10 } },
      { type: 'pointerdown', init: { ...over(60), ...held } },
      ...Array.from({ length: 30 }, (_, n) => ({ type: 'move', init: { ...over(60 + n), ...held, button: -1 } })),
    ]);
    await page.waitForTimeout(1500);
    await penEvents(page, [{ type: 'pointerup', init: { ...over(89), ...held, buttons: 0, pressure: 0 } }]);
    await page.keyboard.press('e');
    await reviewReady(page);
    const run = await recordOf(page, runIdOf(page));
    expect(run.hand.kind).toBe('pen');
    expect(run.handScale).toBeNull();
    await expect(page.locator('[data-hand-scale="none"]')).toContainText('Hand scale not calibrated, pen.');
    const log = decodeHandLog(fromBase64(run.inputs));
    const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
    const fired = Array.from({ length: log.length }, (_, n) => ({ ...readHandTick(log, n, tick) })).filter(
      ({ trigger }) => trigger === 1,
    );
    // Quanta of the core: 0.01 mm and 0.05 deg.
    expect(Math.max(...fired.map(({ x }) => x)) - Math.min(...fired.map(({ x }) => x))).toBeGreaterThan(2500);
    expect(fired.at(-1)).toMatchObject({ leanX: 480, leanY: 200 });
    // A made-up pen is no pointer that the browser knows, and cannot be captured; nothing else may be complained of.
    expect(complaints.filter((text) => !text.includes('No active pointer with the given id'))).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
