import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { scoreAfterOverruling, type WeighedScore } from '../../sim-core/index.ts';
import { expectSound } from './expect-sound.ts';
import { saveBy } from './given-file.ts';
import { arriveAs, handIn, PASSPHRASE, staffYard } from './handed-in-run.ts';
import { callHost } from './imported-run.ts';
import { openApp, reviewReady } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';
import { verifyRun } from './verify-run.ts';

const DRILL = 'guard-patch-straight-3';

test('an assessor signs a verdict over a run by keyboard; anyone can check it, and a changed one is found out', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const files = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 1);
    const apprentice = yard.apprenticeIds[0] as string;
    const runId = await handIn(page, apprentice, DRILL, 'too-fast', 3);
    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    await page.getByRole('button', { name: /^Open .* by Apprentice 01$/ }).press('Enter');
    await reviewReady(page);

    // A note is pinned to the moment that the replay shows.
    await page.getByRole('slider', { name: 'Moment of the run' }).press('End');
    await page.getByRole('tab', { name: 'Notes' }).click();
    await page.getByRole('textbox', { name: /^Note at/ }).fill('Let go in time here.');
    await page.getByRole('button', { name: 'Pin the note' }).press('Enter');
    const note = page.locator('[data-note-tick]');
    await expect(note).toContainText('Let go in time here.');
    const pinned = Number(await note.getAttribute('data-note-tick'));
    expect(pinned).toBeGreaterThan(1000);
    await page.getByRole('slider', { name: 'Moment of the run' }).press('Home');
    await expect(page.locator('.review')).toHaveAttribute('data-tick', '0');
    await page.getByRole('button', { name: /Let go in time here/ }).press('Enter');
    await expect(page.locator('.review')).toHaveAttribute('data-tick', String(pinned));

    await page.getByRole('tab', { name: 'Verdict' }).press('Enter');
    await page.getByRole('tab', { name: 'Notes' }).press('ArrowRight');
    await page.locator('[data-trust="same"]').waitFor({ timeout: 60_000 });
    await expectSound(page, 'verdict form');
    const sign = page.getByRole('button', { name: 'Sign the verdict' });
    await sign.press('Enter');
    await expect(page.locator('.verdict-missing li')).toHaveText([
      'Choose one of the two verdicts.',
      'Write the reasons.',
      'Give your passphrase.',
    ]);
    await page.getByRole('radio', { name: 'Not yet competent' }).focus();
    await page.keyboard.press('Space');
    await page.getByRole('textbox', { name: 'Reasons' }).fill('Too fast all along; the sparks trail.');
    await page.getByRole('button', { name: 'Overrule Travel speed' }).press('Enter');
    const mark = page.getByRole('textbox', { name: 'New mark' });
    await mark.fill('55');
    await mark.press('Tab');
    // Both totals stand there at once: as it was marked, and by the host's own reckoning with the other mark.
    const totals = page.locator('.totals');
    const record = await callHost<{ scoreRecord: WeighedScore }>(page, 'getRun', { runId });
    const after = scoreAfterOverruling(record.scoreRecord, [{ measureId: 'travel-speed', mark: 55 }]);
    expect(after).not.toBe(record.scoreRecord.score);
    await expect(totals).toHaveAttribute('data-as-marked', String(record.scoreRecord.score));
    await expect(totals).toHaveAttribute('data-after', String(after));
    await expect(totals.getByRole('row')).toHaveCount(2);
    await expect(totals.getByRole('row', { name: /^With your marks/ })).toContainText(String(Math.floor(after)));
    await page.getByLabel('Passphrase of Assessor 01').fill(PASSPHRASE);
    await sign.press('Enter');
    await expect(page.locator('.verdict-missing li')).toHaveText(['Write why Travel speed is overruled.']);
    await page.getByRole('textbox', { name: 'Why' }).fill('Steady, if too quick.');

    // A wrong passphrase signs nothing, and nothing that was written is lost.
    await page.getByLabel('Passphrase of Assessor 01').fill('not this one at all');
    await sign.press('Enter');
    await expect(page.locator('.verdict-form [role="alert"]')).toBeVisible();
    await expect(page.getByRole('textbox', { name: 'Reasons' })).toHaveValue('Too fast all along; the sparks trail.');
    await page.getByLabel('Passphrase of Assessor 01').fill(PASSPHRASE);
    await sign.press('Enter');
    const given = page.locator('.given');
    await given.waitFor({ timeout: 60_000 });
    await expect(page.locator('.verdict-signed [role="status"]')).toBeFocused();
    await page.getByRole('button', { name: 'Give another verdict' }).press('Enter');
    await expect(page.locator('.verdict-form')).toBeFocused();
    await expect(given).toHaveAttribute('data-given', 'not-yet-competent');
    await expect(given).toHaveAttribute('data-check', 'fits');
    await expect(given).toContainText('Travel speed: 55 instead of');
    await expect(given).toContainText('Steady, if too quick.');
    await expectSound(page, 'verdict given');

    const verdictFile = await saveBy(page, 'Save the verdict', files.path);
    const keyFile = await saveBy(page, 'Save the public key', files.path);
    const runFile = await saveBy(page, 'Save as a file', files.path);
    const good = verifyRun(runFile, keyFile, verdictFile);
    expect(good.code, good.said).toBe(0);
    const softened = readFileSync(verdictFile, 'utf8').replace('"not-yet-competent"', '"competent"');
    const forged = join(files.path, 'forged.verdict');
    writeFileSync(forged, softened);
    expect(verifyRun(runFile, keyFile, forged).code).toBe(3);
    const changed = join(files.path, 'changed.kerfhand-run');
    writeFileSync(changed, readFileSync(runFile, 'utf8').replace('"seed":3', '"seed":4'));
    expect(verifyRun(changed, keyFile, verdictFile).code).toBe(5);

    // The report is a PDF of one page; a picture of the cut is in it.
    const report = readFileSync(await saveBy(page, 'Report, one page (PDF)', files.path));
    expect(report.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    expect(report.byteLength).toBeGreaterThan(20_000);

    // It has left the queue, stands among the decided, and the apprentice reads it with both marks.
    await page.getByRole('button', { name: 'To the queue' }).press('Enter');
    await expect(page.locator('.queue-none')).toContainText('No run waits');
    await page.getByRole('button', { name: /Waiting for a verdict/ }).click();
    await page.getByRole('option', { name: 'Decided' }).click();
    const table = readFileSync(await saveBy(page, 'Measures (CSV)', files.path), 'utf8');
    expect(table.trim().split(/\r?\n/).length).toBeGreaterThan(5);
    expect(table).toContain(runId);
    await callHost(page, 'signIn', { personId: apprentice });
    await page.goto(new URL(`/#/run/${runId}`, page.url()).href);
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await page.getByRole('tab', { name: 'Verdict' }).click();
    await expect(page.locator('.given')).toContainText('Travel speed: 55 instead of');
    await expect(page.getByRole('button', { name: 'Sign the verdict' })).toHaveCount(0);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
    files.remove();
  }
});
