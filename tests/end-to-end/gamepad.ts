import type { Page } from '@playwright/test';

/** Stands in for a pad: the page asks the browser for it, and the test holds its sticks. */
export async function plugInPad(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const pad = {
      id: 'stand-in',
      index: 0,
      connected: true,
      mapping: 'standard',
      timestamp: 0,
      axes: [0, 0, 0, 0],
      buttons: Array.from({ length: 17 }, () => ({ pressed: false, touched: false, value: 0 })),
    };
    Object.assign(window, { pad });
    navigator.getGamepads = () => [pad as unknown as Gamepad];
  });
}

export interface PadState {
  axes?: number[];
  buttons?: Record<number, number>;
}

/** Sticks and buttons as they are held from now on; what is not named is let go. */
export async function holdPad(page: Page, state: PadState): Promise<void> {
  await page.evaluate(({ axes = [0, 0, 0, 0], buttons = {} }) => {
    const { pad } = window as unknown as { pad: { axes: number[]; buttons: { pressed: boolean; value: number }[] } };
    pad.axes = axes;
    pad.buttons = pad.buttons.map((_, n) => ({ pressed: (buttons[n] ?? 0) > 0.5, touched: false, value: buttons[n] ?? 0 }));
  }, state);
}

/** The guide's word is read this often, ms. */
const LOOK_MS = 5;
const PATIENCE_MS = 20_000;

/** What the bench shows while sticks and buttons are held: one of these words of the guide, or a stand-off above this. */
export type Showing = { steps: string[] } | { standOffAboveMm: number };

/**
 * Sticks and buttons held for as long as the bench shows this, and then as `after`, by the page's own clock: the thumb moves when the
 * word changes, however long the test is in hearing of it.
 */
export async function holdPadWhile(page: Page, state: PadState, showing: Showing, after: PadState = {}): Promise<void> {
  await holdPad(page, state);
  await page.evaluate(
    ({ showing, after, LOOK_MS, PATIENCE_MS }) =>
      new Promise<void>((resolve) => {
        const { pad } = window as unknown as { pad: { axes: number[]; buttons: { pressed: boolean; value: number }[] } };
        const began = performance.now();
        const text = (part: string) => document.querySelector(`[data-part="${part}"]`)?.textContent ?? '';
        const shows = () =>
          'steps' in showing
            ? showing.steps.includes(document.querySelector('.bench')?.getAttribute('data-step') ?? '')
            : Number.parseFloat(text('stand-off-value')) > showing.standOffAboveMm;
        const looking = setInterval(() => {
          if (shows() && performance.now() - began < PATIENCE_MS) return;
          clearInterval(looking);
          const { axes = [0, 0, 0, 0], buttons = {} } = after;
          pad.axes = axes;
          pad.buttons = pad.buttons.map((_, n) => ({ pressed: (buttons[n] ?? 0) > 0.5, touched: false, value: buttons[n] ?? 0 }));
          resolve();
        }, LOOK_MS);
      }),
    { showing, after, LOOK_MS, PATIENCE_MS },
  );
}
