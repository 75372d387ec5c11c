import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { callHost, importRun, openRun, runOfHand } from './imported-run.ts';
import { figureOf, openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** A measured figure as the panel prints it. */
async function measured(page: Page, id: string): Promise<string> {
  return (await page.locator(`[data-measured="${id}"] dd`).textContent()) ?? '';
}

async function numbersOf(page: Page, id: string): Promise<number[]> {
  return [...(await measured(page, id)).matchAll(/\d+(?:\.\d+)?/g)].map(([digits]) => Number(digits));
}

async function choose(page: Page, name: string): Promise<void> {
  await page.getByRole('radio', { name, exact: true }).focus();
  await page.keyboard.press('Space');
}

test('the cut part is measured by keys and by pointer; map and replay lead to each other', async ({ page }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await page.setViewportSize({ width: 1280, height: 720 });
    const complaints = await openApp(page, host);
    // The hand leans 20 deg and more to the left: both faces lean to the right on their way down.
    await openRun(page, await importRun(page, runOfHand('hanger-tab-straight-6', 'leaning', 11)));
    await reviewReady(page);
    await page.getByRole('tab', { name: 'Cut face' }).click();
    await expect(page.locator('.face')).toHaveAttribute('data-tool', 'map');

    // From the map to the replay: the cross by keys, a row of the table, a press on the plate.
    const cross = page.getByRole('slider', { name: 'Place along the cut' });
    await cross.focus();
    for (let n = 0; n < 6; n += 1) await page.keyboard.press('PageUp');
    await expect(page.locator('.face-place')).toHaveAttribute('data-shown', '30.00');
    const at30 = await figureOf(page, '.review', 'tick');
    expect(at30).toBeGreaterThan(0);
    expect(at30).toBeLessThan(3000);
    const rows = page.locator('.quality-table tbody tr');
    await expect(rows.nth(3)).toHaveAttribute('aria-current', 'location');
    await rows.nth(9).getByRole('button').press('Enter');
    await expect(rows.nth(9)).toHaveAttribute('aria-current', 'location');
    const at90 = await figureOf(page, '.review', 'tick');
    expect(at90).toBeGreaterThan(at30 + 240);
    // And back: where the replay goes, the cross goes.
    const slider = page.getByRole('slider', { name: 'Moment of the run' });
    await slider.focus();
    for (let n = 0; n < 5; n += 1) await page.keyboard.press('PageDown');
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBeLessThan(at90);
    await expect.poll(() => figureOf(page, '.face-place', 'shown')).toBeLessThan(90);
    await page.keyboard.press('Home');
    await expect(page.locator('.face-place')).toHaveAttribute('data-shown', '');

    // A place: what is read there is what the table says of its stretch.
    await choose(page, 'Place');
    // What is measured is what was left: the picture goes to the end.
    const last = Number(await slider.getAttribute('max'));
    expect(last).toBeGreaterThan(at90);
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBe(last);
    await cross.focus();
    await page.keyboard.press('Home');
    for (let n = 0; n < 7; n += 1) await page.keyboard.press('PageUp');
    await page.keyboard.press('ArrowRight');
    await expect(page.locator('.measure')).toHaveAttribute('data-way', '35.25');
    const [top, bottom] = (await numbersOf(page, 'width')) as [number, number];
    const cell = async (column: string) => Number(await rows.nth(3).locator(`[data-column="${column}"]`).textContent());
    expect(Math.abs(top - (await cell('top')))).toBeLessThan(0.2);
    expect(Math.abs(bottom - (await cell('bottom')))).toBeLessThan(0.3);
    expect(await measured(page, 'left')).toMatch(/^(1[5-9]|2[0-6])\.\d°, wider above$/);
    expect(await measured(page, 'right')).toMatch(/^(1[4-9]|2[0-6])\.\d°, wider below$/);
    expect(await measured(page, 'off')).toMatch(/mm to the (left|right)$|^on it$/);
    await expect(page.locator('.measure')).toContainText('Cells of 0.25');
    const end = await figureOf(page, '.review', 'tick');
    await page.getByRole('button', { name: /^Show the moment/ }).press('Enter');
    await expect.poll(() => figureOf(page, '.review', 'tick')).toBeLessThan(end);
    // Another moment of the replay changes nothing that was measured.
    expect(await numbersOf(page, 'width')).toEqual([top, bottom]);

    // A distance: by keys in steps that are known, then by two presses on the plate.
    await choose(page, 'Distance');
    const first = page.getByRole('button', { name: /^Point 1/ });
    await first.focus();
    await page.keyboard.press('Enter');
    const [before] = (await numbersOf(page, 'x')) as [number];
    for (let n = 0; n < 4; n += 1) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await expect.poll(async () => (await numbersOf(page, 'x'))[0]).toBeCloseTo(before + 20.25, 2);
    const [whole] = (await numbersOf(page, 'whole')) as [number];
    const [x] = (await numbersOf(page, 'x')) as [number];
    const [y] = (await numbersOf(page, 'y')) as [number];
    expect(whole).toBeCloseTo(Math.sqrt(x * x + y * y), 1);
    const stage = await page.locator('.review-stage').boundingBox();
    if (!stage) throw new Error('There is no picture of the plate.');
    await page.mouse.click(stage.x + stage.width * 0.35, stage.y + stage.height * 0.6);
    await page.mouse.click(stage.x + stage.width * 0.6, stage.y + stage.height * 0.6);
    await expect.poll(async () => (await numbersOf(page, 'y'))[0]).toBeLessThan(1.5);
    await expect.poll(async () => (await numbersOf(page, 'x'))[0]).toBeGreaterThan(30);
    // A point is dragged to the cut and keeps to its edge.
    const box = await first.boundingBox();
    if (!box) throw new Error('There is no first point.');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 40, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    const [shorter] = (await numbersOf(page, 'x')) as [number];
    expect(shorter).toBeLessThan(60);

    await expectSoundInBothLooks(page, 'measuring a distance');
    await choose(page, 'Place');
    await expectSoundInBothLooks(page, 'measuring a place');

    // In inches the same figures, and the resolution with them.
    await callHost(page, 'setSettings', { units: 'inch' });
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await reviewReady(page);
    await page.getByRole('tab', { name: 'Cut face' }).click();
    await choose(page, 'Place');
    await cross.focus();
    await page.keyboard.press('Home');
    for (let n = 0; n < 7; n += 1) await page.keyboard.press('PageUp');
    await page.keyboard.press('ArrowRight');
    await expect(page.locator('.measure')).toHaveAttribute('data-way', '35.25');
    expect((await numbersOf(page, 'width'))[0]).toBeCloseTo(top / 25.4, 2);
    await expect(page.locator('.measure')).toContainText('Cells of 0.010');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
