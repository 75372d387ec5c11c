import { expect, type Page, test } from '@playwright/test';
import { decodeHandLog, type HandTick, readHandTick, TICK_HZ } from '../../sim-core/index.ts';
import { holdPad, plugInPad } from './gamepad.ts';
import { benchEye, holdKey, untilStep } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { recordOf, runIdOf } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/**
 * A rolling pierce of 12 mm plate on each device, at real speed: leaned over and near the plate before the arc, then rolled upright
 * within two seconds or so with the arc burning. What counts is read from the recorded hand.
 */
const WASHER = /Go to the bench: Rudder-stock washer, rolling/;
const PLATE = { lengthMm: 100, widthMm: 80 };
const START = { xMm: 25, yMm: 40 };
const WAIT_BACK_MM = 20;
const WAIT_HEIGHT_MM = 8;
const PIERCE_HEIGHT_MM = 3;
const LEAN_DEG = 45;

interface PierceHand {
  leanOver(page: Page): Promise<void>;
  lower(page: Page): Promise<void>;
  pull(page: Page): Promise<void>;
  roll(page: Page): Promise<void>;
  letGo(page: Page): Promise<void>;
}

const LEAN_TRIGGER = { 7: 1 };
const hands: Record<'keyboard' | 'mouse' | 'gamepad', PierceHand> = {
  keyboard: {
    async leanOver(page) {
      await holdKey(page, 'ArrowRight', WAIT_BACK_MM / 10);
      await holdKey(page, 'd', LEAN_DEG / 24);
    },
    lower: (page) => holdKey(page, 'f', (WAIT_HEIGHT_MM - PIERCE_HEIGHT_MM) / 6),
    pull: (page) => page.keyboard.down('Space'),
    roll: (page) => page.keyboard.press('u'),
    letGo: (page) => page.keyboard.up('Space'),
  },
  mouse: {
    async leanOver(page) {
      const eye = await benchEye(page, PLATE);
      const at = eye(START, WAIT_HEIGHT_MM);
      await page.mouse.move(at.x - 30, at.y);
      await page.mouse.move(at.x, at.y, { steps: 10 });
      await page.keyboard.down('Shift');
      await page.mouse.move(at.x + LEAN_DEG / 0.2, at.y, { steps: 30 });
      await page.keyboard.up('Shift');
    },
    async lower(page) {
      for (let n = 0; n < (WAIT_HEIGHT_MM - PIERCE_HEIGHT_MM) / 0.4; n += 1) await page.mouse.wheel(0, 100);
    },
    pull: (page) => page.mouse.down(),
    async roll(page) {
      // By the hand itself, not by the button that does it: Shift, and 225 pixels back in two seconds.
      const eye = await benchEye(page, PLATE);
      const at = eye(START, WAIT_HEIGHT_MM);
      await page.keyboard.down('Shift');
      const began = performance.now();
      for (let share = 0; share < 1; ) {
        share = Math.min(1, (performance.now() - began) / 2000);
        await page.mouse.move(at.x + (LEAN_DEG / 0.2) * (1 - share), at.y);
        await new Promise((resolve) => setTimeout(resolve, 16));
      }
      await page.keyboard.up('Shift');
    },
    letGo: (page) => page.mouse.up(),
  },
  gamepad: {
    async leanOver(page) {
      await holdPad(page, { axes: [0.444, 0, 0, 0] });
      await page.waitForFunction(() => document.querySelector('.bench')?.getAttribute('data-step') !== 'approach');
      await holdPad(page, { axes: [0, 0, 1, 0] });
      await page.waitForTimeout((1000 * LEAN_DEG) / 36);
      await holdPad(page, {});
    },
    async lower(page) {
      await holdPad(page, { buttons: { 6: 1 } });
      await page.waitForTimeout((1000 * (WAIT_HEIGHT_MM - PIERCE_HEIGHT_MM)) / 8);
      await holdPad(page, {});
    },
    pull: (page) => holdPad(page, { buttons: LEAN_TRIGGER }),
    async roll(page) {
      await holdPad(page, { buttons: { ...LEAN_TRIGGER, 11: 1 } });
      await page.waitForTimeout(120);
      await holdPad(page, { buttons: LEAN_TRIGGER });
    },
    letGo: (page) => holdPad(page, {}),
  },
};

/** Every tick of a recorded hand. */
function ticksOf(inputs: string): HandTick[] {
  const log = decodeHandLog(new Uint8Array(Buffer.from(inputs, 'base64')));
  return Array.from({ length: log.length }, (_, n) =>
    readHandTick(log, n, { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 }),
  );
}

const leanDegOf = (tick: HandTick) => Math.hypot(tick.leanX, tick.leanY) * 0.05;

for (const [device, hand] of Object.entries(hands)) {
  test(`a plate is pierced by rolling, with the ${device}`, async ({ page }) => {
    test.setTimeout(180_000);
    const folder = temporaryFolder();
    const host = await startHost(folder.path);
    try {
      if (device === 'gamepad') await plugInPad(page);
      await openApp(page, host);
      await openBench(page, WASHER);
      await hand.leanOver(page);
      await untilStep(page, 'lower-pierce');
      await hand.lower(page);
      await untilStep(page, 'strike');
      await hand.pull(page);
      await page.locator('[data-arc="transferred"]').waitFor({ timeout: 20_000 });
      await hand.roll(page);
      // Through and upright: the guide sends the hand on its way.
      await untilStep(page, 'move', 'faster');
      await hand.letGo(page);
      await page.getByRole('button', { name: 'End the run' }).click();
      await reviewReady(page);

      const { inputs } = await recordOf(page, runIdOf(page));
      const ticks = ticksOf(inputs);
      const pulled = ticks.findIndex((tick) => tick.trigger === 1);
      const struck = ticks[pulled] as HandTick;
      expect(leanDegOf(struck)).toBeGreaterThan(38);
      expect(leanDegOf(struck)).toBeLessThan(52);
      expect(struck.height * 0.01).toBeGreaterThan(1.5);
      expect(struck.height * 0.01).toBeLessThan(4.5);
      const rolling = ticks.findIndex((tick, n) => n > pulled && leanDegOf(tick) < leanDegOf(struck) - 1);
      const upright = ticks.findIndex((tick, n) => n > rolling && leanDegOf(tick) < 2);
      expect((upright - rolling) / TICK_HZ).toBeGreaterThan(1.2);
      expect((upright - rolling) / TICK_HZ).toBeLessThan(2.6);
      expect(ticks.slice(pulled, upright).every((tick) => tick.trigger === 1)).toBe(true);
      expect(await figureOf(page, '[data-measure="pierce"]', 'mark')).toBeGreaterThan(50);
    } finally {
      await host.stop();
      folder.remove();
    }
  });
}
