import { expect, type Page, test } from '@playwright/test';
import type { DrillVersion, Person } from '../../electron/contract.ts';
import { en } from '../../renderer/text/en.ts';
import { expectSound } from './expect-sound.ts';
import { callHost } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const LOOKS = [
  { theme: 'light', width: 1280, height: 720 },
  { theme: 'dark', width: 1920, height: 1080 },
] as const;

/** The home page of an instructor, and from there the builder with a new drill in it. */
async function openBuilder(page: Page): Promise<void> {
  const person = await callHost<Person>(page, 'createPerson', { role: 'instructor' });
  await callHost(page, 'choosePerson', { personId: person.id });
  await page.reload();
  await page.getByRole('button', { name: 'Understood' }).click();
  await page.getByRole('button', { name: en['home.build'] }).click();
  await verdict(page, 'can');
}

async function verdict(page: Page, state: 'can' | 'cannot'): Promise<void> {
  await page.locator(`[data-verdict="${state}"]`).waitFor({ timeout: 60_000 });
}

/** Types a figure into a field of the form and leaves it. */
async function setFigure(page: Page, label: string | RegExp, value: string): Promise<void> {
  const field = page.getByRole('textbox', { name: label });
  await field.fill(value);
  await field.press('Tab');
}

const textOf = (page: Page) => page.getByRole('textbox', { name: en['builder.text'] }).inputValue();
const drillOf = async (page: Page) => JSON.parse(await textOf(page));
const place = (page: Page, id: string) => page.locator(`[data-place="${id}"]`);

/** Pulls a place of the plan by so many pixels. */
async function pull(page: Page, id: string, byX: number, byY: number): Promise<void> {
  const box = await place(page, id).locator('.plan-hit').boundingBox();
  if (!box) throw new Error(`There is no place ${id} on the plan.`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + byX / 2, y + byY / 2);
  await page.mouse.move(x + byX, y + byY);
  await page.mouse.up();
}

test('an instructor builds a drill by keyboard and pointer, is refused an impossible one, saves it, shows it and tries it', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await openBuilder(page);

    // The core's answers stand beside the drill.
    const figure = async (answer: string, name: string) =>
      Number(await page.locator(`[data-answer="${answer}"]`).getAttribute(`data-${name}`));
    await page.locator('[data-answer="cost"]').waitFor({ timeout: 60_000 });
    expect(await figure('speed', 'low')).toBeGreaterThan(4);
    expect(await figure('speed', 'high')).toBeGreaterThan(await figure('speed', 'low'));
    expect(await figure('reference', 'seconds')).toBeGreaterThan(8);
    await expect(page.locator('[data-answer="pause"]')).toContainText(/\d\ss$/);
    for (const method of ['contact', 'rolling', 'stand-off']) {
      await expect(page.locator(`[data-pierce="${method}"]`)).toContainText(/^in \d/);
    }

    // By keyboard: another part of the form, a round hole, and the hole moved to where it belongs.
    await page.getByRole('tab', { name: 'Plate' }).focus();
    await page.keyboard.press('ArrowRight');
    await expect(page.getByRole('tab', { name: 'Line', exact: true })).toHaveAttribute('aria-selected', 'true');
    await page.getByRole('button', { name: 'Round hole' }).focus();
    await page.keyboard.press('Enter');
    expect(await drillOf(page)).toMatchObject({ start: 'rolling-pierce', finish: 'close', leadInMm: 10 });
    await place(page, 'centre-1').focus();
    for (let n = 0; n < 3; n++) await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Shift+ArrowDown');
    await expect(place(page, 'centre-1')).toHaveAccessibleName('Middle of turn 2: 77 mm along, 40 mm up');
    expect((await drillOf(page)).path.segments[1].centre).toEqual({ xMm: 77, yMm: 40 });
    await verdict(page, 'can');

    // By pointer: a support is pulled; a step back puts it where it was, a step on pulls it again.
    const before = (await drillOf(page)).plate.supports[1];
    await pull(page, 'support-1', -40, -60);
    const pulled = (await drillOf(page)).plate.supports[1];
    expect(pulled.xMm).toBeLessThan(before.xMm - 8);
    expect(pulled.yMm).toBeGreaterThan(before.yMm + 8);
    await page.keyboard.press('Control+z');
    expect((await drillOf(page)).plate.supports[1]).toEqual(before);
    await page.getByRole('button', { name: 'Step on' }).click();
    expect((await drillOf(page)).plate.supports[1]).toEqual(pulled);
    await page.getByRole('button', { name: 'Step back' }).click();
    expect((await drillOf(page)).path.segments[1].centre).toEqual({ xMm: 77, yMm: 40 });

    // Something put on the plan is in hand at once.
    await page.getByRole('button', { name: 'Clamp place', exact: true }).click();
    await expect(place(page, 'clamp-1')).toBeFocused();
    await page.keyboard.press('Delete');
    await expect(place(page, 'clamp-1')).toHaveCount(0);
    await expect(place(page, 'clamp-0')).toBeFocused();
    await page.getByRole('button', { name: 'Clamp place', exact: true }).click();
    await page.getByRole('button', { name: 'Take it away' }).press('Enter');
    await expect(place(page, 'clamp-1')).toHaveCount(0);
    await expect(place(page, 'clamp-0')).toBeFocused();

    // What nobody could cut is refused with the reason, wherever it is said.
    await page.getByRole('tab', { name: 'Plate' }).click();
    await setFigure(page, /^Thickness/, '30');
    await verdict(page, 'cannot');
    await expect(page.locator('[data-verdict]')).toContainText('cannot cut 30 mm mild steel');
    await expect(page.locator('[data-verdict]')).toContainText('cannot pierce 30 mm mild steel: its limit is');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    const refusal = page.getByRole('alertdialog');
    await expect(refusal).toContainText('cannot cut 30 mm mild steel');
    await refusal.getByRole('button', { name: /^To: Plate/ }).click();
    await expect(page.getByRole('tab', { name: 'Plate' })).toBeFocused();
    expect(
      (await callHost<{ drills: { source: string }[] }>(page, 'listDrills', {})).drills.every((one) => one.source === 'shipped'),
    ).toBe(true);
    await setFigure(page, /^Thickness/, '8');
    await place(page, 'joint-0').focus();
    for (let n = 0; n < 8; n++) await page.keyboard.press('Shift+ArrowUp');
    await verdict(page, 'cannot');
    await page.keyboard.press('Control+z');
    await verdict(page, 'can');

    // Form and text are one.
    const text = page.getByRole('textbox', { name: en['builder.text'] });
    await text.fill((await textOf(page)).replace('"currentA": 45', '"currentA": 55'));
    await page.getByRole('tab', { name: 'Rig' }).click();
    await expect(page.getByRole('textbox', { name: 'Current, A' })).toHaveValue('55');
    await text.fill((await textOf(page)).replace('"middle"', '"huge"').replace('"small"', '"huge"'));
    await expect(page.locator('.text-about')).toContainText('$.rig.nozzle');
    await expect(page.getByRole('button', { name: 'Save', exact: true })).toBeDisabled();
    await expect(page.locator('.builder-form')).toHaveAttribute('inert', '');
    await page.getByRole('button', { name: 'Put the last good text back' }).click();
    expect((await drillOf(page)).rig).toMatchObject({ currentA: 55 });
    await setFigure(page, 'Current, A', '45');
    expect((await drillOf(page)).rig).toMatchObject({ currentA: 45, nozzle: 'small' });

    // Saved, changed, saved again: two versions.
    await page.getByRole('tab', { name: 'Card' }).click();
    await page.getByRole('textbox', { name: 'Title' }).fill('Slip gate washer, 8 mm');
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect(page.getByText('Saved as version 1')).toBeVisible({ timeout: 30_000 });
    await page.getByRole('textbox', { name: 'Hints, one a line' }).fill('The washer falls: keep your feet away.');
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect(page.getByText('Saved as version 2')).toBeVisible({ timeout: 30_000 });

    // A draft that was not saved is there again after a reload.
    await page.getByRole('textbox', { name: 'Title' }).fill('Slip gate washer, 8 mm, round');
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await expect(page.getByText(en['builder.draft'])).toBeVisible();
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Slip gate washer, 8 mm, round');
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect(page.getByText('Saved as version 3')).toBeVisible({ timeout: 30_000 });

    // The practised hand shows the version in use.
    await page.getByRole('button', { name: 'Versions' }).click();
    const newest = page.locator('[data-version="3"]');
    await expect(page.locator('[data-version]')).toHaveCount(3);
    await newest.getByRole('button', { name: 'Let a practised hand show it' }).click();
    await newest.getByRole('button', { name: 'Watch what is shown' }).waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Close' }).click();

    await page.getByRole('button', { name: 'Try it', exact: true }).click();
    await page.getByRole('heading', { name: 'Slip gate washer, 8 mm, round' }).waitFor();
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Watch how it is done' }).click();
    await reviewReady(page);
    const { versions } = await callHost<{ versions: DrillVersion[] }>(page, 'listDrillVersions', { id: 'new-drill' });
    expect(new URL(page.url()).hash).toBe(`#/run/${versions[0]?.demonstrationRunId}`);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

/** At 200 % the three columns lie below one another, and none over another. */
async function expectOneBelowTheOther(page: Page): Promise<void> {
  const before = page.viewportSize();
  await page.setViewportSize({ width: 640, height: 400 });
  const columns = ['.builder-form', '.builder-middle', '.builder-right'].map((column) => page.locator(column).boundingBox());
  const boxes = await Promise.all(columns);
  const edges = boxes.flatMap((box) => (box === null ? [Number.NaN] : [box.y, box.y + box.height]));
  expect(edges).toEqual([...edges].sort((a, b) => a - b));
  for (const box of boxes) expect(box?.height).toBeGreaterThan(200);
  await page.setViewportSize(before ?? LOOKS[0]);
}

test('every part of the builder is sound by axe, at two sizes and in both lights', async ({ page }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await openBuilder(page);
    await page.goto(new URL('/#/build/porthole-circle-guide-6', page.url()).href);
    await page.getByRole('heading', { name: /^Porthole blank/ }).waitFor();
    await verdict(page, 'can');
    for (const look of LOOKS) {
      await page.setViewportSize(look);
      await page.emulateMedia({ colorScheme: look.theme });
      await expect(page.locator('html')).toHaveAttribute('data-theme', look.theme);
      for (const part of ['Plate', 'Line', 'Rig', 'Marks', 'Card']) {
        await page.getByRole('tab', { name: part, exact: true }).click();
        await place(page, 'clamp-1').focus();
        await expectSound(page, `${look.theme} ${look.width}x${look.height}: ${part}`);
      }
      await expect(page.locator('.plan-picture')).toBeInViewport({ ratio: 1 });
      await expect(page.locator('[data-verdict]')).toBeInViewport({ ratio: 1 });
    }
    await expectOneBelowTheOther(page);
    await page.getByRole('tab', { name: 'Plate', exact: true }).click();
    await setFigure(page, /^Thickness/, '30');
    await verdict(page, 'cannot');
    await expectSound(page, 'cannot be cut');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByRole('alertdialog').waitFor();
    await expectSound(page, 'refused');
    await page.getByRole('button', { name: 'Back to the drill' }).click();
    await setFigure(page, /^Thickness/, '6');
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Saved as version 1').waitFor({ timeout: 30_000 });
    await page.getByRole('button', { name: 'Versions' }).click();
    await page.locator('[data-version="1"]').waitFor();
    await expectSound(page, 'versions');
    await page.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('textbox', { name: en['builder.text'] }).fill('{ "format": ');
    await expect(page.locator('.builder-text')).toHaveAttribute('data-readable', 'false');
    await expectSound(page, 'text that cannot be read');
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('a drill that is tried before it is saved stands on the shelf as a draft', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await openBuilder(page);
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Try it', exact: true }).click();
    await page.getByRole('button', { name: 'To the plate' }).waitFor({ timeout: 60_000 });
    await page.goto(new URL('/#/', page.url()).href);
    const drafts = page.locator('.drill-sheet', { hasText: en['home.drill.draft'] });
    await expect(drafts).toHaveCount(1);
    await expect(drafts.locator('[data-drill="new-drill"]')).toBeVisible();
    await expectSound(page, 'a draft on the shelf');
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('where roles bind the builder is open to an instructor who has signed in, and to nobody else', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const reload = async () => {
      await page.reload();
      await page.getByRole('button', { name: 'Understood' }).click();
    };
    await callHost(page, 'makeFirstInstructor', { passphrase: 'slipway at low water' });
    const apprentice = await callHost<Person>(page, 'createPerson', { role: 'apprentice' });
    await reload();
    await page.getByRole('button', { name: en['home.build'] }).click();
    await verdict(page, 'can');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('Saved as version 1').waitFor({ timeout: 30_000 });

    await callHost(page, 'signIn', { personId: apprentice.id });
    await reload();
    await expect(page.getByRole('alert')).toHaveText(en['builder.instructors-only']);
    await expect(callHost(page, 'saveDrill', { text: '{}', replaces: null })).rejects.toThrow(/instructor/i);
    await page.getByRole('button', { name: 'Home' }).click();
    await expect(page.getByRole('button', { name: en['home.build'] })).toHaveCount(0);
  } finally {
    await host.stop();
    folder.remove();
  }
});
