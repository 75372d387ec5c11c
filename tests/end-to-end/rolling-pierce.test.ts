import { expect, type Page, test } from '@playwright/test';
import { decodeHandLog, type HandTick, readHandTick, TICK_HZ } from '../../sim-core/index.ts';
import { holdPad, holdPadWhile, type PadState, plugInPad } from './gamepad.ts';
import { type Answers, benchEye, followGuide, sweep, untilStep } from './hands.ts';
import { figureOf, openApp, openBench, reviewReady } from './page.ts';
import { recordOf, runIdOf } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/**
 * A rolling pierce of 12 mm plate at real speed, with the mouse by the hand itself and with the pad by the button that rolls: leaned
 * over and near the plate before the arc, then rolled upright within two seconds or so with the arc burning. What counts is read from
 * the recorded hand.
 */
const WASHER = /Go to the bench: Rudder-stock washer, rolling/;
const PLATE = { lengthMm: 100, widthMm: 80 };
const START = { xMm: 25, yMm: 40 };
const WAIT_HEIGHT_MM = 8;
const PIERCE_HEIGHT_MM = 3;
const LEAN_DEG = 45;
const LINE_MM = 50;
const SPEED_MM_PER_S = 10;
/** Deflection that the pad's curve turns into about 10 mm/s. */
const GENTLE = 0.478;
/** About 5 mm/s, a lean of about 10 degrees a second, and about 1.8 mm/s down. */
const GENTLER = 0.384;
const LEANING = 0.6;
const LOWERING = 0.35;

interface PierceHand {
  /** To the start, leaned over and near the plate; by measure, and then by the word of the guide. */
  pose(page: Page): Promise<void>;
  taps(page: Page): Answers;
  pull(page: Page): Promise<void>;
  roll(page: Page): Promise<void>;
  /** To the end of the line with the arc on. */
  travel(page: Page): Promise<void>;
  letGo(page: Page): Promise<void>;
}

const TAP_S = 0.15;
const PULLED = { 7: 1 };
const ROLLING = { ...PULLED, 11: 1 };

/** Sticks and buttons held for a time, s. */
async function padFor(page: Page, state: PadState, seconds: number): Promise<void> {
  await holdPad(page, state);
  await page.waitForTimeout(seconds * 1000);
  await holdPad(page, {});
}

const hands: Record<'mouse' | 'gamepad', PierceHand> = {
  mouse: {
    async pose(page) {
      const eye = await benchEye(page, PLATE);
      const at = eye(START, WAIT_HEIGHT_MM);
      await page.mouse.move(at.x - 30, at.y);
      await page.mouse.move(at.x, at.y, { steps: 10 });
      await page.mouse.down({ button: 'right' });
      await page.mouse.move(at.x + LEAN_DEG / 0.2, at.y, { steps: 30 });
      await page.mouse.up({ button: 'right' });
      for (let n = 0; n < (WAIT_HEIGHT_MM - PIERCE_HEIGHT_MM) / 0.4; n += 1) await page.mouse.wheel(0, 100);
    },
    taps: (page) => ({
      'lower-pierce': () => page.mouse.wheel(0, 100),
      'raise-pierce': () => page.mouse.wheel(0, -100),
    }),
    pull: (page) => page.mouse.down(),
    async roll(page) {
      // By the hand itself: the right button held, and 225 pixels back in two seconds.
      const eye = await benchEye(page, PLATE);
      const at = eye(START, WAIT_HEIGHT_MM);
      await page.mouse.down({ button: 'right' });
      const began = performance.now();
      for (let share = 0; share < 1; ) {
        share = Math.min(1, (performance.now() - began) / 2000);
        await page.mouse.move(at.x + (LEAN_DEG / 0.2) * (1 - share), at.y);
        await new Promise((resolve) => setTimeout(resolve, 16));
      }
      await page.mouse.up({ button: 'right' });
    },
    async travel(page) {
      // The torch stays where it was leaned from; the pointer has come back to there.
      const eye = await benchEye(page, PLATE);
      const spot = (travelled: number) => ({ xMm: START.xMm + travelled, yMm: START.yMm });
      await sweep(page, (at) => eye(at, WAIT_HEIGHT_MM), spot, LINE_MM + 1, SPEED_MM_PER_S);
    },
    letGo: (page) => page.mouse.up(),
  },
  gamepad: {
    async pose(page) {
      await holdPadWhile(page, { axes: [GENTLER, 0, 0, 0] }, { steps: ['approach'] });
      await untilStep(page, 'lean-over');
    },
    // Slow enough that a look every 100 ms, or every 500 on a slow display, stops within what the guide asks for.
    taps: (page) => ({
      approach: () => holdPadWhile(page, { axes: [-GENTLER, 0, 0, 0] }, { steps: ['approach'] }),
      'lean-over': () => holdPadWhile(page, { axes: [0, 0, LEANING, 0] }, { steps: ['lean-over'] }),
      'lean-less': () => holdPadWhile(page, { axes: [0, 0, -LEANING, 0] }, { steps: ['lean-less'] }),
      'lower-pierce': () => holdPadWhile(page, { buttons: { 6: LOWERING } }, { steps: ['lower-pierce'] }),
      'raise-pierce': () => padFor(page, { buttons: { 4: 1 } }, TAP_S),
    }),
    async pull(page) {
      // From the edge of what the guide allows to nearer its middle.
      await holdPadWhile(page, { buttons: { 6: LOWERING } }, { standOffAboveMm: PIERCE_HEIGHT_MM });
      // The roll begins with the arc on the metal.
      await holdPadWhile(page, { buttons: PULLED }, { steps: ['strike', 'pilot'] }, { buttons: ROLLING });
    },
    async roll(page) {
      // Held down until the torch is upright and the plate is through; then the hand goes on its way at once.
      const blind = ['strike', 'pilot', 'roll', 'wait-through'];
      const way = { axes: [GENTLE, 0, 0, 0], buttons: PULLED };
      await holdPadWhile(page, { buttons: ROLLING }, { steps: blind }, way);
    },
    async travel(page) {
      await holdPad(page, { axes: [GENTLE, 0, 0, 0], buttons: PULLED });
      await untilStep(page, 'release');
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
      await hand.pose(page);
      await followGuide(page, hand.taps(page), 'strike');
      await hand.pull(page);
      await page.locator('[data-arc="transferred"]').waitFor({ timeout: 20_000 });
      await hand.roll(page);
      // Through and upright: the guide sends the hand on its way.
      await untilStep(page, 'move', 'faster');
      await hand.travel(page);
      await hand.letGo(page);
      await reviewReady(page);

      const { inputs } = await recordOf(page, runIdOf(page));
      const ticks = ticksOf(inputs);
      const pulled = ticks.findIndex((tick) => tick.trigger === 1);
      const struck = ticks[pulled] as HandTick;
      expect(leanDegOf(struck)).toBeGreaterThan(30);
      expect(leanDegOf(struck)).toBeLessThan(60);
      expect(struck.height * 0.01).toBeGreaterThan(1.5);
      expect(struck.height * 0.01).toBeLessThan(4.5);
      const rolling = ticks.findIndex((tick, n) => n > pulled && leanDegOf(tick) < leanDegOf(struck) - 1);
      const upright = ticks.findIndex((tick, n) => n > rolling && leanDegOf(tick) < 2);
      // 45 degrees take two seconds; this hand began with a little more or less.
      expect((upright - rolling) / TICK_HZ).toBeGreaterThan(1.1);
      expect((upright - rolling) / TICK_HZ).toBeLessThan(2.6);
      expect(ticks.slice(pulled, upright).every((tick) => tick.trigger === 1)).toBe(true);
      expect(await figureOf(page, '[data-measure="pierce"]', 'mark')).toBeGreaterThan(40);
      expect(await figureOf(page, '[data-measure="severance"]', 'mark')).toBeGreaterThan(40);
    } finally {
      await host.stop();
      folder.remove();
    }
  });
}
