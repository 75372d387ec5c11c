import { expect, type Page, test } from '@playwright/test';
import { encodeRunFile, type RunFile } from '../../sim-core/index.ts';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { arriveAs, handIn, staffYard } from './handed-in-run.ts';
import { runOfHand } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

/** Gives a text to the queue's file button, as a person does with a file of theirs. */
async function giveFile(page: Page, text: string): Promise<void> {
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Check a run file' }).click();
  await (await choosing).setFiles({ name: 'someone.kerfhand-run', mimeType: 'application/json', buffer: Buffer.from(text) });
}

async function trustOf(page: Page): Promise<string | null> {
  await page.getByRole('tab', { name: 'Verdict' }).click();
  const sign = page.locator('[data-trust]:not([data-trust="checking"])');
  await sign.waitFor({ timeout: 60_000 });
  return await sign.getAttribute('data-trust');
}

async function backToQueue(page: Page): Promise<void> {
  await page.goto(new URL('/#/queue', page.url()).href);
  await page.getByRole('button', { name: 'Check a run file' }).waitFor();
}

test('the queue is oldest first, filtered, for staff only; a run file is same, different, of another core, or damaged', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 2);
    const [first, second] = yard.apprenticeIds as [string, string];
    const quick = await handIn(page, first, DRILL, 'too-fast', 3);
    const good = await handIn(page, second, DRILL, null, 4);

    // Signed in as an apprentice the room shows nothing of the queue.
    await page.goto(new URL('/#/queue', page.url()).href);
    await page.reload();
    await page.getByRole('button', { name: 'Understood' }).click();
    await expect(page.locator('.queue-main')).toContainText('for assessors and instructors');
    await expect(page.locator('.table-frame')).toHaveCount(0);

    await arriveAs(page, yard.assessorIds[0] as string, 'queue');
    const rows = page.locator('.table-frame tbody tr');
    await expect(rows).toHaveCount(2);
    expect(await rows.evaluateAll((found) => found.map((row) => row.getAttribute('data-run-id')))).toEqual([quick, good]);

    await expectSoundInBothLooks(page, 'queue');
    // By keyboard: the list of measures is opened, one is found by its first letters, and chosen.
    await page.getByRole('button', { name: /Weakest measure/ }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Travel');
    await page.keyboard.press('Enter');
    await expect(rows).toHaveCount(1);
    await expect(rows.first()).toHaveAttribute('data-run-id', quick);
    await page.getByRole('button', { name: 'Show all' }).click();
    await expect(rows).toHaveCount(2);
    await page.getByRole('button', { name: /^Open .* by Apprentice 01$/ }).click();
    await page.locator('.review').waitFor();
    expect(await trustOf(page)).toBe('same');

    const run = runOfHand(DRILL, 'too-fast', 9);
    const score = run.score as NonNullable<RunFile['score']>;
    await backToQueue(page);
    await giveFile(page, encodeRunFile(run));
    await page.locator('.review').waitFor();
    expect(await trustOf(page)).toBe('same');

    // Somebody raised a mark and sealed the file anew: every digest of the states still fits.
    const raised = { ...score, score: 99, measures: score.measures.map((measure) => ({ ...measure, mark: 99 })) };
    await backToQueue(page);
    await giveFile(page, encodeRunFile({ ...run, score: raised as RunFile['score'] }));
    await page.locator('.review').waitFor();
    expect(await trustOf(page)).toBe('different');
    await expect(page.locator('[data-trust]')).toContainText('first in the score');

    await backToQueue(page);
    await giveFile(page, encodeRunFile({ ...run, coreVersion: '0.9.0-test' }));
    await page.locator('.review').waitFor();
    expect(await trustOf(page)).toBe('other-core');

    // Changed without the seal: nothing is taken in, and the sentence says why.
    await backToQueue(page);
    await giveFile(page, encodeRunFile(run).replace('"seed":9', '"seed":8'));
    await expect(page.getByRole('alert')).toContainText('its seal, the digest in its second line, does not fit');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
