import type { Page } from '@playwright/test';
import { holdPad } from './gamepad.ts';

/**
 * Newcomers, who do what the line at the top says, the obvious way, with the device that its small line names, and know nothing else:
 * not where the plate is, not its size, not a speed. A sentence that their table has no answer to is one that a newcomer could do
 * nothing with either.
 */
export interface Newcomer {
  answer(seen: Look): Promise<unknown>;
  stop(): void;
}

interface Spot {
  x: number;
  y: number;
}

/** What somebody sees who looks up: what the line says, and where the marks and the tip are drawn. */
export interface Look {
  step: string;
  start: Spot | null;
  pace: Spot | null;
  tip: Spot | null;
  over: boolean;
}

export async function look(page: Page): Promise<Look> {
  return await page.evaluate(() => {
    const middle = (selector: string) => {
      const box = document.querySelector(selector)?.getBoundingClientRect();
      return box && box.width > 0 ? { x: box.x + box.width / 2, y: box.y + box.height / 2 } : null;
    };
    return {
      step: document.querySelector('.guide-sentence')?.getAttribute('data-guide') ?? '',
      start: middle('.start-mark'),
      pace: middle('.pace-mark'),
      tip: middle('.torch-cues [data-part="ring"]'),
      over: document.querySelector('.guess, .review') !== null,
    };
  });
}

async function answerBy(answers: Record<string, (seen: Look) => Promise<unknown>>, seen: Look): Promise<void> {
  const answer = answers[seen.step];
  if (!answer) throw new Error(`A newcomer can do nothing about "${seen.step}".`);
  await answer(seen);
}

const nothing = async () => undefined;
/** A notch of the wheel as most mice turn it, and half of one for somebody who is told to go a little. */
const NOTCH = 100;
const LITTLE = 50;
/** A hand is this far behind what the eye follows, ms, and moves this often. */
const BEHIND_MS = 250;
const MOVE_MS = 16;

/** A mouse with a wheel, and not one key. */
export function mouseNewcomer(page: Page): Newcomer {
  let at: Spot = { x: 0, y: 0 };
  let followed: Spot | null = null;
  let down = false;
  const to = async (spot: Spot | null, steps = 1) => {
    if (!spot) return;
    at = { ...spot };
    await page.mouse.move(spot.x, spot.y, { steps });
  };
  const press = async (on: boolean) => {
    if (on === down) return;
    down = on;
    await (on ? page.mouse.down() : page.mouse.up());
  };
  // A hand goes on between two looks; like a mouse, it does not wait for the page.
  let movedMs = performance.now();
  const following = setInterval(() => {
    const nowMs = performance.now();
    const share = 1 - Math.exp(-(nowMs - movedMs) / BEHIND_MS);
    movedMs = nowMs;
    if (followed === null) return;
    at = { x: at.x + (followed.x - at.x) * share, y: at.y + (followed.y - at.y) * share };
    page.mouse.move(at.x, at.y).catch(() => undefined);
  }, MOVE_MS);
  const follow = async ({ pace }: Look) => {
    followed = pace;
  };
  const turn = (by: number) => async (seen: Look) => {
    await to(seen.start);
    await page.mouse.wheel(0, by);
  };
  const answers: Record<string, (seen: Look) => Promise<unknown>> = {
    approach: ({ start }) => to(start, 12),
    lower: turn(NOTCH),
    raise: turn(-LITTLE),
    strike: () => press(true),
    pilot: nothing,
    'no-metal': () => to({ x: at.x + 3, y: at.y }),
    'pull-again': async ({ start }) => {
      await press(false);
      await to(start);
    },
    'wait-through': nothing,
    move: follow,
    faster: follow,
    slower: follow,
    finish: follow,
    'on-line': follow,
    'cut-lost': follow,
    'lower-cutting': () => page.mouse.wheel(0, LITTLE),
    'raise-cutting': () => page.mouse.wheel(0, -LITTLE),
    release: () => press(false),
    done: nothing,
  };
  return {
    async answer(seen) {
      if (answers[seen.step] !== follow) followed = null;
      await answerBy(answers, seen);
    },
    stop: () => clearInterval(following),
  };
}

const LOWER = 6;
const RAISE = 4;
const TRIGGER = 7;
/**
 * How far a stick is tilted for a mark: beyond its dead zone at once, fully for one that is so many px away. Toward the start a thumb
 * is careful; the diamond goes ahead of it by a few mm only, and wants more.
 */
const CAREFUL = { least: 0.26, fullPx: 420 };
const QUICK = { least: 0.2, fullPx: 60 };
const NEAR_PX = 2;
/** A tap of a button, ms. */
const TAP_MS = 90;

/** A pad alone. */
export function padNewcomer(page: Page): Newcomer {
  let pulled = false;
  const hold = (axes: [number, number], buttons: Record<number, number> = {}) =>
    holdPad(page, { axes: [...axes, 0, 0], buttons: { ...buttons, [TRIGGER]: pulled ? 1 : 0 } });
  const tap = async (button: number, value: number) => {
    await hold([0, 0], { [button]: value });
    await page.waitForTimeout(TAP_MS);
    await hold([0, 0]);
  };
  /** The stick points from the tip to the mark. */
  const toward = async (mark: Spot | null, tip: Spot | null, { least, fullPx }: typeof CAREFUL) => {
    if (!mark || !tip) return;
    const [dx, dy] = [mark.x - tip.x, mark.y - tip.y];
    const far = Math.hypot(dx, dy);
    const size = far < NEAR_PX ? 0 : Math.min(1, least + far / fullPx);
    await hold([(dx / far) * size || 0, (dy / far) * size || 0]);
  };
  const toStart = ({ start, tip }: Look) => toward(start, tip, CAREFUL);
  const follow = ({ pace, tip }: Look) => toward(pace, tip, QUICK);
  const pull = async (on: boolean) => {
    pulled = on;
    await hold([0, 0]);
  };
  const answers: Record<string, (seen: Look) => Promise<unknown>> = {
    approach: toStart,
    lower: async (seen) => {
      await toStart(seen);
      await tap(LOWER, 0.5);
    },
    raise: () => tap(RAISE, 1),
    strike: () => pull(true),
    pilot: () => hold([0, 0]),
    'no-metal': async () => {
      await hold([0.35, 0]);
      await page.waitForTimeout(TAP_MS);
      await hold([0, 0]);
    },
    'pull-again': async (seen) => {
      await pull(false);
      await toStart(seen);
    },
    'wait-through': () => hold([0, 0]),
    move: follow,
    faster: follow,
    slower: follow,
    finish: follow,
    'on-line': follow,
    'cut-lost': follow,
    'lower-cutting': () => tap(LOWER, 0.4),
    'raise-cutting': () => tap(RAISE, 1),
    release: () => pull(false),
    done: nothing,
  };
  return { answer: (seen) => answerBy(answers, seen), stop: () => undefined };
}
