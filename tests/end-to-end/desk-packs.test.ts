import { readFileSync } from 'node:fs';
import { expect, type Page, test } from '@playwright/test';
import { encodeRunFile } from '../../sim-core/index.ts';
import { expectSound, expectSoundInBothLooks } from './expect-sound.ts';
import { chooseFile, dropFiles, saveBy } from './given-file.ts';
import { arriveAs, staffYard } from './handed-in-run.ts';
import { hold } from './hold-calls.ts';
import { callHost, importRun, runOfText, shippedDrill } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const SHIPPED = 'guard-patch-straight-3';

/** A drill of the yard's own, made from a shipped one. */
function ownDrill(title: string): string {
  return `${JSON.stringify({ ...JSON.parse(shippedDrill(SHIPPED)), id: 'watch-patch', title }, null, 2)}\n`;
}

/** A yard with a drill of its own and the run that shows how it is cut. */
async function makeOwnDrill(page: Page): Promise<void> {
  const text = ownDrill('Watch patch');
  const { drill } = await callHost<{ drill: { hash: string } }>(page, 'importDrill', { text });
  const runId = await importRun(page, runOfText(text, null, 5));
  await callHost(page, 'keepDemonstration', { hash: drill.hash, runId });
}

async function pick(page: Page, name: string): Promise<void> {
  await page.getByRole('searchbox', { name: 'Find: Drills to hand on' }).fill(name);
  await page.getByRole('listbox', { name: 'Drills to hand on' }).getByRole('option', { name }).click();
}

const row = (page: Page, drillId: string) => page.locator(`tr[data-drill="${drillId}"]`);

test('drills go out as one file and into another yard row by row; nothing that is there is overwritten unasked', async ({
  page,
  context,
}) => {
  test.setTimeout(240_000);
  const [folder, folder2, files] = [temporaryFolder(), temporaryFolder(), temporaryFolder()];
  const host = await startHost(folder.path);
  const host2 = await startHost(folder2.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await makeOwnDrill(page);
    await arriveAs(page, yard.instructorId, 'packs');
    await expect(page.getByText('Choose a drill.')).toBeVisible();
    await pick(page, 'Watch patch');
    await pick(page, 'Mudguard patch');
    await expect(page.getByText('Give the pack a title.')).toBeVisible();
    await page.getByLabel('Title of the pack').fill('Patches');
    await page.getByLabel(/^What it is good for/).fill('For the second week.');
    await expect(page.getByText('Drills: 2. With a demonstration: 1.')).toBeVisible();
    await expectSoundInBothLooks(page, 'hand on');
    const pack = await saveBy(page, 'Save the pack', files.path);
    const packText = readFileSync(pack, 'utf8');
    expect(JSON.parse(packText)).toMatchObject({ format: 'kerfhand-pack', title: 'Patches', drills: { length: 2 } });

    const there = await context.newPage();
    const complaintsThere = await openApp(there, host2);
    const yard2 = await staffYard(there, 1, 0);
    await arriveAs(there, yard2.instructorId, 'packs');
    const looked = await hold(there, 'previewPack');
    await chooseFile(there, 'Choose a pack or a drill', pack);
    const looking = there.getByRole('status').filter({ hasText: 'Looking into' });
    await expect(looking).toContainText('works out whether it can be cut');
    looked.letGo();
    await expect(row(there, 'watch-patch')).toHaveAttribute('data-kind', 'new');
    await expect(looking).toHaveCount(0);
    await expect(row(there, SHIPPED)).toHaveAttribute('data-kind', 'same');
    await expect(there.getByText('For the second week.')).toBeVisible();
    const drillsBefore = await callHost<{ drills: unknown[] }>(there, 'listDrills', {});
    await expectSoundInBothLooks(there, 'preview of a pack');
    await there.getByRole('button', { name: 'Take in one drill' }).click();
    await expect(there.locator('[data-became="add"]')).toContainText('Its demonstration is here too.', { timeout: 30_000 });
    await expect(there.locator('[data-became="leave"]')).toContainText('Left as it is.');
    await expectSound(there, 'what became of a pack');
    const drillsAfter = await callHost<{ drills: unknown[] }>(there, 'listDrills', {});
    expect(drillsAfter.drills.length).toBe(drillsBefore.drills.length + 1);
    await there.getByRole('button', { name: 'Put away' }).click();

    // The drill is changed there; the pack, dropped, then holds an older version, and offers to leave what is there.
    await callHost(there, 'importDrill', { text: ownDrill('Watch patch, longer'), onConflict: 'replace' });
    await dropFiles(there, { name: 'patches.kerfhand-pack', text: packText });
    await expect(row(there, 'watch-patch')).toHaveAttribute('data-kind', 'older');
    await expect(row(there, 'watch-patch')).toContainText('Watch patch, longer');
    await expect(there.getByRole('button', { name: 'Take in', exact: true })).toBeDisabled();
    await row(there, 'watch-patch')
      .getByRole('button', { name: /What to do with Watch patch/ })
      .focus();
    await there.keyboard.press('Enter');
    await there.getByRole('option', { name: 'Keep both' }).press('Enter');
    await there.getByRole('button', { name: 'Take in one drill' }).press('Enter');
    await expect(row(there, 'watch-patch')).toContainText('Kept beside yours, as watch-patch-2.');
    const kept = await callHost<{ drills: { id: string; title: string }[] }>(there, 'listDrills', {});
    expect(kept.drills.filter(({ id }) => id.startsWith('watch-patch')).map(({ title }) => title)).toEqual([
      'Watch patch, longer',
      'Watch patch',
    ]);

    // A pack that somebody changed is refused with a sentence, and nothing is offered.
    await dropFiles(there, { name: 'patches.kerfhand-pack', text: packText.replace('second week', 'third week') });
    await expect(there.getByRole('alert')).toContainText('patches.kerfhand-pack was not taken in.');
    await expect(there.locator('.incoming')).toHaveCount(0);
    expect([...complaints, ...complaintsThere]).toEqual([]);
  } finally {
    await host.stop();
    await host2.stop();
    for (const one of [folder, folder2, files]) one.remove();
  }
});

test('a file that is dropped finds its room, by what is in it and by who drops it', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 0);
    await arriveAs(page, yard.instructorId, 'packs');
    const drill = { name: 'mine.json', text: ownDrill('Watch patch') };
    await dropFiles(page, drill);
    await expect(row(page, 'watch-patch')).toHaveAttribute('data-kind', 'new');
    await page.getByRole('button', { name: 'Take in one drill' }).click();
    await expect(page.locator('[data-became="add"]')).toBeVisible({ timeout: 30_000 });
    // The very same once more, whatever its layout, is no clash; another one of its id is.
    await dropFiles(page, { ...drill, text: JSON.stringify(JSON.parse(drill.text)) });
    await expect(row(page, 'watch-patch')).toHaveAttribute('data-kind', 'same');
    await dropFiles(page, { ...drill, text: ownDrill('Another patch') });
    await expect(row(page, 'watch-patch')).toHaveAttribute('data-kind', 'clash');
    await expect(page.getByRole('button', { name: 'Take in', exact: true })).toBeDisabled();
    await page.getByRole('button', { name: 'Leave everything' }).click();

    const trouble = page.locator('.trouble');
    await dropFiles(page, { name: 'holiday.txt', text: 'sun, sea' });
    await expect(trouble).toContainText('holiday.txt is nothing that Kerfhand knows');
    await dropFiles(page, drill, drill);
    await expect(trouble).toContainText('2 files were dropped. Bring one at a time');
    await dropFiles(page, { name: 'runs.csv', text: 'run,score\n1,2' });
    await expect(trouble).toContainText('a roster has the columns role and number');
    await page.getByRole('button', { name: 'Put away' }).click();

    await dropFiles(page, { name: 'people.csv', text: 'role,number,groups\napprentice,1,Noon watch' });
    await expect(page.locator('[data-roster="new"]')).toContainText('Apprentice 01');
    // While it asks, a file dropped beside it goes nowhere.
    await dropFiles(page, { name: 'holiday.txt', text: 'sun, sea' });
    await expect(trouble).toHaveCount(0);
    await page.getByRole('button', { name: 'Leave everything as it is' }).click();
    await dropFiles(page, { name: 'yard.kerfhand-backup', text: '{"format":"kerfhand-backup","formatVersion":1}\n' });
    await expect(page.getByRole('heading', { level: 1, name: 'Back up and restore' })).toBeVisible();
    await expect(page.getByRole('alert')).toContainText('yard.kerfhand-backup cannot be restored.');
    const run = { name: 'run.kerfhand-run', text: encodeRunFile(runOfText(shippedDrill(SHIPPED), 'too-fast', 8)) };
    await dropFiles(page, run);
    await page.locator('.review').waitFor();

    // An assessor looks at runs, and is told whose the rest is.
    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    await expect(page.getByRole('button', { name: 'Office' })).toHaveCount(0);
    await expect(page.getByRole('link', { name: 'Drill packs' })).toHaveCount(0);
    await expect(page.getByRole('link', { name: 'Who did what' })).toBeVisible();
    await dropFiles(page, drill);
    await expect(trouble).toContainText('mine.json is a drill. An instructor takes it in.');
    await dropFiles(page, run);
    await page.locator('.review').waitFor();
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

/** Holds the host's first answer to a call back until what this gives is called. */
async function holdFirst(page: Page, verb: string): Promise<() => Promise<void>> {
  let letGo: () => void = () => undefined;
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  let calls = 0;
  await page.route(`**/call/${verb}`, async (route) => {
    calls += 1;
    if (calls === 1) await held;
    await route.continue();
  });
  return async () => {
    const answered = page.waitForResponse(`**/call/${verb}`);
    letGo();
    await (await answered).finished();
    await page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 200)));
  };
}

test('of two files that come one behind the other the second is shown, though the first is read later', async ({ page }) => {
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await arriveAs(page, yard.instructorId, 'packs');
    const drill = (id: string) => JSON.stringify({ ...JSON.parse(shippedDrill(SHIPPED)), id, title: id });
    const letDrillGo = await holdFirst(page, 'checkDrill');
    await dropFiles(page, { name: 'slow.json', text: drill('slow-patch') });
    await dropFiles(page, { name: 'quick.json', text: drill('quick-patch') });
    await expect(row(page, 'quick-patch')).toBeVisible();
    await letDrillGo();
    await expect(row(page, 'quick-patch')).toBeVisible();
    await expect(row(page, 'slow-patch')).toHaveCount(0);

    const letRosterGo = await holdFirst(page, 'previewRoster');
    await dropFiles(page, { name: 'slow.csv', text: 'role,number,groups\napprentice,1,' });
    const choosing = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Choose a file' }).click();
    const text = 'role,number,groups\napprentice,2,';
    await (await choosing).setFiles({ name: 'quick.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    const named = page.locator('[data-roster="new"]');
    await expect(named).toContainText('Apprentice 02');
    await letRosterGo();
    await expect(named).toContainText('Apprentice 02');
    await expect(page.getByRole('dialog')).not.toContainText('slow.csv');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
