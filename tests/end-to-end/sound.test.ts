import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { benchEye, untilStep } from './hands.ts';
import { callHost, importRun, runOfHand } from './imported-run.ts';
import { openApp, openBench, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** Peak that leaves the bench at full volume, and the volume it starts with: its square is what is let through. */
const CEILING = 0.5;
const FIRST_LEVEL = 0.35;

/** Listens in on what the page sends to the loudspeaker: how many ways there it has opened, and the peak of the last 0.7 s. */
async function listenIn(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const ears: { analyser: AnalyserNode; data: Float32Array<ArrayBuffer> }[] = [];
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode) => AudioNode;
    AudioNode.prototype.connect = function connectAndListen(this: AudioNode, to: AudioNode) {
      if (to instanceof AudioDestinationNode) {
        const analyser = new AnalyserNode(this.context, { fftSize: 32_768 });
        connect.call(this, analyser);
        ears.push({ analyser, data: new Float32Array(analyser.fftSize) });
      }
      return connect.call(this, to);
    } as typeof AudioNode.prototype.connect;
    Object.assign(globalThis, {
      opened: () => ears.length,
      peak: () => {
        let most = 0;
        for (const { analyser, data } of ears) {
          if (analyser.context.state !== 'running') continue;
          analyser.getFloatTimeDomainData(data);
          for (const value of data) most = Math.max(most, Math.abs(value));
        }
        return most;
      },
    });
  });
}

const opened = (page: Page) => page.evaluate('opened()') as Promise<number>;
const peak = (page: Page) => page.evaluate('peak()') as Promise<number>;
const sign = (page: Page, name: string) => page.locator(`[data-sign="${name}"]`);

test('a cut is heard and seen, low at first, silent when muted, and the choice is kept', async ({ page }) => {
  test.setTimeout(480_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await listenIn(page);
    const complaints = await openApp(page, host);
    expect(await opened(page), 'the home page has no sound').toBe(0);
    await openBench(page, /Go to the bench: Trailer hanger tab/);
    await expect(page.locator('[data-sound]')).toHaveAttribute('data-sound', 'sounding');
    expect(await opened(page)).toBe(1);
    await expect(sign(page, 'none')).toHaveText('Arc off');
    await expectSoundInBothLooks(page, 'bench with signs');

    const eye = await benchEye(page, { lengthMm: 160, widthMm: 90 });
    const spot = { xMm: 0.4, yMm: 60 };
    const above = eye(spot, 8);
    await page.mouse.move(above.x - 30, above.y);
    await page.mouse.move(above.x, above.y, { steps: 10 });
    for (let n = 0; n < 16; n += 1) await page.mouse.wheel(0, 100);
    const down = eye(spot);
    await page.mouse.move(down.x, down.y, { steps: 5 });
    await untilStep(page, 'strike');
    await page.mouse.down();
    await expect(sign(page, 'gas')).toBeVisible();
    await expect(sign(page, 'arc')).toContainText(/Arc\s*\d+\sV/);
    await expect(sign(page, 'under')).toHaveText('Through');
    // Low: a quarter of a quarter of the ceiling is not reached, but it is there.
    await expect.poll(() => peak(page)).toBeGreaterThan(0.005);
    expect(await peak(page)).toBeLessThanOrEqual(CEILING * FIRST_LEVEL ** 2);

    await page.keyboard.press('m');
    await expect(page.locator('[data-sound]')).toHaveAttribute('data-sound', 'muted');
    await expect(page.getByRole('button', { name: 'Sound off' })).toBeVisible();
    await expect.poll(() => peak(page)).toBe(0);
    await page.keyboard.press('m');
    await expect.poll(() => peak(page)).toBeGreaterThan(0.005);

    await page.mouse.up();
    await expect(sign(page, 'out')).toBeVisible();
    await expect(sign(page, 'arc')).toHaveCount(0);
    await expect(sign(page, 'gas')).toBeVisible();
    await expect(sign(page, 'none')).toBeVisible({ timeout: 20_000 });
    await expect.poll(() => peak(page)).toBeLessThan(1e-4);

    await page.keyboard.press('m');
    await expect(page.locator('[data-sound]')).toHaveAttribute('data-sound', 'muted');
    await expect.poll(async () => (await callHost<{ soundOn: boolean }>(page, 'getSettings', {})).soundOn).toBe(false);
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('button', { name: 'To the plate' }).click({ timeout: 60_000 });
    await expect(page.locator('[data-sound]')).toHaveAttribute('data-sound', 'muted');
    expect(await opened(page), 'what is muted does not even open the way').toBe(0);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('a replay waits for a press, is heard at its own speed and silent at any other', async ({ page: first, context }) => {
  test.setTimeout(480_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(first, host);
    const runId = await importRun(first, runOfHand('hanger-tab-straight-6', null, 3));
    // A page of its own, on which nobody has done anything.
    const page = await context.newPage();
    await listenIn(page);
    // The test's own questions to the page count as presses; here only what it truly presses shall.
    await page.addInitScript(() => Object.defineProperty(UserActivation.prototype, 'hasBeenActive', { get: () => false }));
    await page.goto(new URL(`/#/run/${runId}`, first.url()).href);
    await first.close();
    await reviewReady(page);
    expect(await opened(page), 'nobody has pressed anything on this page yet').toBe(0);
    await page.getByRole('button', { name: 'Understood' }).click();
    await expect(page.locator('[data-sound]')).toHaveAttribute('data-sound', 'sounding');
    expect(await peak(page)).toBe(0);

    const position = page.getByRole('slider').first();
    await position.press('Home');
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect(sign(page, 'under')).toBeVisible({ timeout: 30_000 });
    await expect.poll(() => peak(page)).toBeGreaterThan(0.005);
    await page.getByRole('radio', { name: '½×' }).click();
    await expect(sign(page, 'under')).toBeVisible();
    await expect.poll(() => peak(page)).toBeLessThan(1e-4);
    await page.getByRole('radio', { name: '1×', exact: true }).click();
    await expect.poll(() => peak(page)).toBeGreaterThan(0.005);
    await page.getByRole('button', { name: 'Pause', exact: true }).click();
    await expect.poll(() => peak(page)).toBeLessThan(1e-4);
    await expectSoundInBothLooks(page, 'review with signs');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('how loud the bench is, in words, is set by pointer or keys and kept', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  const kept = async () => {
    const { soundOn, soundLevel } = await callHost<{ soundOn: boolean; soundLevel: number }>(page, 'getSettings', {});
    return { soundOn, soundLevel };
  };
  try {
    const complaints = await openApp(page, host);
    expect(await kept()).toEqual({ soundOn: true, soundLevel: FIRST_LEVEL });
    await page.getByRole('button', { name: 'How it looks' }).click();
    const level = page.getByRole('slider', { name: 'How loud' });
    await expect(level).toHaveAttribute('aria-valuetext', '35%');
    await expectSoundInBothLooks(page, 'settings with sound');
    await level.press('End');
    await expect(page.locator('.sound-level-word')).toHaveText('high');
    await expect.poll(kept).toEqual({ soundOn: true, soundLevel: 1 });
    await level.press('Home');
    await expect(page.locator('.sound-level-word')).toHaveText('silent');
    await page.getByRole('radiogroup', { name: 'Sound of the bench' }).getByText('Off').click();
    await expect.poll(kept).toEqual({ soundOn: false, soundLevel: 0 });
    await expect(level).toBeDisabled();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
