import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { chooseFile, saveBy } from './given-file.ts';
import { arriveAs, handIn, PASSPHRASE, staffYard } from './handed-in-run.ts';
import { callHost } from './imported-run.ts';
import { openApp, toRoom } from './page.ts';
import { type RunningHost, startHost, temporaryFolder } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

async function chooseBackup(page: Page, file: string): Promise<void> {
  await chooseFile(page, 'Choose a backup', file);
}

test('a yard is backed up, changed, and is as it was after a restore and a new start; what was there is kept aside', async ({
  page,
  context,
}) => {
  test.setTimeout(240_000);
  const [folder, files] = [temporaryFolder(), temporaryFolder()];
  let host: RunningHost | null = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 0, 2);
    const runId = await handIn(page, yard.apprenticeIds[0] as string, DRILL, 'too-fast', 3);
    await arriveAs(page, yard.instructorId, 'backup');
    await expect(page.getByText('The record tells of no backup yet.')).toBeVisible();
    const backup = await saveBy(page, 'Back up now', files.path);
    await expect(page.getByText(/^Last backup: .*, by Instructor 01\.$/)).toBeVisible();
    await expect(page.locator('[data-backup="done"]')).toContainText('Saved: yard-');
    const facts = page.locator('[data-backup="done"] .desk-facts');
    await expect(facts).toContainText('People3');
    await expect(facts).toContainText('Runs1');
    expect(readFileSync(backup).subarray(0, 80).toString('latin1')).toContain('"format":"kerfhand-backup"');
    const table = readFileSync(await saveBy(page, 'All runs (CSV)', files.path), 'utf8');
    expect(table).toContain(runId);
    await expectSoundInBothLooks(page, 'backup made');

    // The yard goes on: one more person, a group, another run.
    await callHost(page, 'createPerson', { role: 'apprentice' });
    await callHost(page, 'saveGroup', { groupId: null, name: 'Late watch', memberIds: [] });
    await handIn(page, yard.apprenticeIds[1] as string, DRILL, null, 4);
    await arriveAs(page, yard.instructorId, 'backup');

    // One that was changed on the way is found out before anything is asked.
    const spoilt = readFileSync(backup);
    const at = spoilt.length - 40;
    spoilt[at] = (spoilt[at] ?? 0) ^ 1;
    const spoiltFile = join(files.path, 'spoilt.kerfhand-backup');
    writeFileSync(spoiltFile, spoilt);
    await chooseBackup(page, spoiltFile);
    await expect(page.getByRole('alert')).toContainText('spoilt.kerfhand-backup cannot be restored.');
    await expect(page.locator('[data-restore]')).toHaveCount(0);

    await chooseBackup(page, backup);
    const confirm = page.locator('[data-restore="looked-into"]');
    await expect(confirm.locator('.desk-facts')).toContainText('People3');
    await expectSoundInBothLooks(page, 'backup looked into');
    await page.getByLabel('Passphrase of Instructor 01').fill('not this one at all');
    await page.getByRole('button', { name: 'Restore at the next start' }).click();
    await expect(confirm.getByRole('alert')).toContainText('That is not the passphrase.');
    await page.getByLabel('Passphrase of Instructor 01').fill(PASSPHRASE);
    await page.keyboard.press('Enter');
    const waits = page.locator('[data-restore="waits"]');
    await expect(waits).toContainText('Close Kerfhand and open it again');
    await expectSoundInBothLooks(page, 'backup waits');
    // It can be taken back, and asked for again.
    await page.getByRole('button', { name: 'Withdraw it' }).press('Enter');
    await expect(waits).toHaveCount(0);
    const inHand = page.locator('.desk-lines[tabindex="-1"]', { has: page.getByRole('button', { name: 'Choose a backup' }) });
    await expect(inHand).toBeFocused();
    expect((await callHost<{ waiting: unknown }>(page, 'getWaitingRestore', {})).waiting).toBeNull();
    await chooseBackup(page, backup);
    await page.getByLabel('Passphrase of Instructor 01').fill(PASSPHRASE);
    await page.keyboard.press('Enter');
    await expect(waits).toBeVisible();
    // Until then everything is as it was.
    expect((await callHost<{ people: unknown[] }>(page, 'listPeople', {})).people).toHaveLength(4);
    expect(complaints).toEqual([]);
    await page.close();

    await host.stop();
    host = await startHost(folder.path);
    const later = await context.newPage();
    const laterComplaints = await openApp(later, host);
    await later.getByLabel('Passphrase').fill(PASSPHRASE);
    await later.getByRole('button', { name: 'Sign in' }).click();
    await expect(later.getByText(/^The yard was restored from the backup of/)).toBeVisible();
    expect((await callHost<{ people: unknown[] }>(later, 'listPeople', {})).people).toHaveLength(3);
    expect((await callHost<{ groups: unknown[] }>(later, 'listGroups', {})).groups).toEqual([]);
    expect((await callHost<{ runs: { id: string }[] }>(later, 'listRuns', {})).runs.map(({ id }) => id)).toEqual([runId]);
    await toRoom(later, 'Backup');
    await expect(later.locator('[data-notice="restored"]')).toBeVisible();
    const aside = readdirSync(folder.path).find((name) => name.startsWith('before-restore-')) as string;
    await expect(later.locator('[data-last-restore]')).toContainText(`kept in the folder ${aside}`);
    expect(existsSync(join(folder.path, aside, 'records.db'))).toBe(true);
    await expect(later.locator('[data-restore="waits"]')).toHaveCount(0);
    await expectSoundInBothLooks(later, 'after a restore');
    await toRoom(later, 'Who did what');
    await expect(later.locator('[data-chain="whole"]')).toBeVisible();
    await expect(later.locator('tr[data-kind="restore"]')).toContainText('with 3 people and one run, as Instructor 01 had asked');
    expect(laterComplaints).toEqual([]);
  } finally {
    await host?.stop();
    folder.remove();
    files.remove();
  }
});
