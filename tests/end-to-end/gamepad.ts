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
