import { expect, type Locator, type Page } from '@playwright/test';

export interface Held {
  /** How often the page asked since. */
  asked(): number;
  /** Lets the host answer, or says no in its place. */
  letGo(refusal?: string): void;
}

/** Holds every answer to a call back until it is let go, the first whenever it is asked; what is asked later is answered at once. */
export async function hold(page: Page, verb: string): Promise<Held> {
  const held = Promise.withResolvers<string | undefined>();
  let asked = 0;
  let isOver = false;
  await page.route(`**/call/${verb}`, async (route) => {
    asked += 1;
    const message = isOver && asked > 1 ? undefined : await held.promise;
    if (message === undefined) return await route.continue();
    await route.fulfill({ json: { ok: false, error: { code: 'internal', message } } });
  });
  return {
    asked: () => asked,
    letGo: (refusal) => {
      isOver = true;
      held.resolve(refusal);
    },
  };
}

/** The button is pressed, and pressed again while it works: the second press does nothing, and the focus stays. */
export async function pressTwice(page: Page, button: Locator, work: Held): Promise<void> {
  await button.press('Enter');
  await expect.poll(work.asked).toBe(1);
  await expect(button).toBeDisabled();
  await expect(button).toBeFocused();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Space');
  await expect(button).toBeFocused();
  expect(work.asked()).toBe(1);
}
