import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from '@playwright/test';
import { withoutTriggers } from '../host/without-triggers.ts';
import { expectSound, expectSoundInBothLooks } from './expect-sound.ts';
import { arriveAs, handIn, PASSPHRASE, staffYard } from './handed-in-run.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

test('the record says in words who did what, is filtered and corrected, and names the first entry that somebody changed', async ({
  page,
  context,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  let host: RunningHost | null = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 2);
    await callHost(page, 'saveGroup', { groupId: null, name: 'Noon watch', memberIds: yard.apprenticeIds });
    await callHost(page, 'assign', { title: 'First lines', drillIds: [DRILL], personIds: yard.apprenticeIds });
    await callHost(page, 'importRoster', { text: 'role,number,groups\napprentice,3,Noon watch' });
    const runId = await handIn(page, yard.apprenticeIds[0] as string, DRILL, 'too-fast', 3);
    await callHost(page, 'signIn', { personId: yard.assessorIds[0], passphrase: PASSPHRASE });
    await callHost(page, 'addNote', { runId, tick: 10, text: 'Slower here.' });
    await callHost(page, 'signVerdict', {
      runId,
      decision: 'not-yet-competent',
      reasons: 'Too fast all along.',
      overruled: [{ measureId: 'travel-speed', mark: 40, reason: 'Steady at least.' }],
      passphrase: PASSPHRASE,
    });
    await arriveAs(page, yard.instructorId, 'record');
    await expect(page.locator('[data-chain="whole"]')).toContainText('All 12 entries of the ledger fit.');
    // Between a figure and its unit stands a space that does not break.
    const said = (await page.locator('tr[data-seq] th').allTextContents()).map((text) => text.replaceAll('\u00a0', ' '));
    expect(said.map((text) => text.replace(/score [\d.]+|instead of [\d.]+/, (found) => `${found.split(' ')[0]} …`))).toEqual([
      'Overruled Travel speed: 40 instead … “Steady at least.”',
      'Signed a verdict: Not yet competent. “Too fast all along.”',
      'Pinned a note to a run: “Slower here.”',
      'Handed in a run of “Mudguard patch, straight, 3 mm”, score …',
      'Took in a roster: one person new or changed.',
      'Assigned “First lines”: one drill.',
      'Made the group “Noon watch” with 2 people.',
      'Apprentice 02 was added.',
      'Apprentice 01 was added.',
      'Assessor 01 was given a passphrase.',
      'Assessor 01 was added.',
      'Instructor 01 became the first instructor; since then roles bind.',
    ]);
    await expectSoundInBothLooks(page, 'record');

    await page.getByRole('button', { name: /Who$/ }).click();
    await page.getByRole('option', { name: 'Assessor 01' }).click();
    await expect(page.locator('tr[data-seq]')).toHaveCount(3);
    await page.getByRole('button', { name: /Kind$/ }).press('Enter');
    await page.getByRole('option', { name: 'Notes' }).press('Enter');
    await expect(page.locator('tr[data-seq]')).toHaveCount(1);
    await page.getByRole('button', { name: 'Show all' }).press('Enter');
    await expect(page.locator('tr[data-seq]')).toHaveCount(12);

    // An entry with all that it says; corrected, it stays, and says by which it was.
    await page.getByRole('button', { name: 'More about entry 6' }).press('Enter');
    await page.getByText('All that it says').click();
    await expect(page.locator('.entry-body pre')).toContainText('"name": "Noon watch"');
    await expectSound(page, 'entry of the record');
    await page.getByText('Correct this entry').click();
    await expectSound(page, 'correcting an entry');
    await page.getByLabel('What was wrong with it').fill('The name is to be Morning watch.');
    await page.getByRole('button', { name: 'Add the correction' }).press('Enter');
    await expect(page.locator('tr[data-seq="13"]')).toContainText('Corrected entry 6: “The name is to be Morning watch.”');
    await expect(page.locator('tr[data-seq="6"]')).toContainText('Corrected by entry 13.');
    await expect(page.locator('[data-chain="whole"]')).toContainText('All 13 entries');
    expect(complaints).toEqual([]);
    await page.close();

    // Somebody at the file itself, while Kerfhand is closed.
    await host.stop();
    const records = new DatabaseSync(join(folder.path, 'records.db'));
    withoutTriggers(records, () =>
      records.exec("update ledger set body = replace(body, 'not-yet-competent', 'competent') where seq = 11"),
    );
    records.close();
    host = await startHost(folder.path);
    const later = await context.newPage();
    await openApp(later, host);
    await arriveAs(later, yard.assessorIds[0] as string, 'record');
    await expect(later.locator('[data-chain="broken"]')).toContainText('Entry 11 was changed');
    await expect(later.locator('tr[data-wrong="true"]')).toHaveAttribute('data-seq', '11');
    await expect(later.locator('tr[data-wrong="true"]')).toContainText('This is the first entry that does not fit.');
    await expectSoundInBothLooks(later, 'record that was changed');
  } finally {
    await host?.stop();
    folder.remove();
  }
});

test('of a long record only what is in sight is drawn; the rest comes as it is reached, and all of it is printed', async ({
  page,
}) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await page.evaluate(async () => {
      for (let n = 0; n < 300; n++) {
        await fetch('/call/createPerson', {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ role: 'apprentice' }),
        });
      }
    });
    await arriveAs(page, yard.instructorId, 'record');
    await expect(page.getByText('301 entries', { exact: true })).toBeVisible();
    const rows = page.locator('tr[data-seq]');
    await expect(rows.first()).toHaveAttribute('data-seq', '301');
    expect(await rows.count()).toBeLessThan(80);
    const frame = page.getByRole('region', { name: 'Entries of the record: all rows' });
    await frame.focus();
    // The end of what was fetched, then the end of all.
    await expect(async () => {
      await page.keyboard.press('End');
      await expect(page.locator('tr[data-seq="1"]')).toBeInViewport({ timeout: 1000 });
    }).toPass({ timeout: 30_000 });
    expect(await rows.count()).toBeLessThan(80);
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    await expect(rows).toHaveCount(301);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  } finally {
    await host.stop();
    folder.remove();
  }
});
