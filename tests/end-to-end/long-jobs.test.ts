// Long work of the host's, as a person sees it: how far it is, the way to stop it, and what is left of it.
import { expect, type Page, test } from '@playwright/test';
import type { PaperJob } from '../../electron/contract.ts';
import { fillYard } from '../host/fill-yard.ts';
import { longRunText } from '../host/long-run.ts';
import { expectSoundInBothLooks } from './expect-sound.ts';
import { arriveAs, staffYard } from './handed-in-run.ts';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

/** Ids of the jobs that the page begins with this call, as they are begun. */
function jobsBegunBy(page: Page, verb: string): string[] {
  const ids: string[] = [];
  page.on('response', async (response) => {
    if (!response.url().endsWith(`/call/${verb}`)) return;
    const answer = (await response.json()) as { reply: PaperJob };
    ids.push(answer.reply.id);
  });
  return ids;
}

/** Presses a job's stop as soon as it has told that it is under way: in the page, for the job may be over in a second. */
async function stopAtFirstProgress(page: Page, job: string): Promise<void> {
  await page.evaluate((job) => {
    const watch = new MutationObserver(() => {
      const bar = document.querySelector(`[role="progressbar"][aria-valuenow]`);
      if (!(Number(bar?.getAttribute('aria-valuenow')) > 0)) return;
      const stop = [...document.querySelectorAll('button')].find(
        (button) => button.getAttribute('aria-label') === `Stop: ${job}`,
      );
      if (!stop) return;
      watch.disconnect();
      stop.click();
    });
    watch.observe(document.body, { subtree: true, childList: true, attributes: true });
  }, job);
}

test('a check tells how far it is, is stopped by a key or by leaving, and is begun again', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 1, 0);
    // So long that a busy machine sees it under way, too.
    const { run } = await callHost<{ run: { id: string } }>(page, 'importRun', { text: longRunText(25) });
    const checks = jobsBegunBy(page, 'startCheck');
    await arriveAs(page, yard.assessorIds[0] as string, `run/${run.id}`);
    await page.getByRole('tab', { name: 'Verdict' }).click();
    const bar = page.getByRole('progressbar', { name: 'Cut again so far' });
    await expect.poll(async () => Number(await bar.getAttribute('aria-valuenow')), { timeout: 60_000 }).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Stop: Cut again so far' }).press('Enter');
    await expect(page.locator('[data-trust="stopped"]')).toContainText('The check was stopped');
    // The button that went away leaves the focus beside what takes its place.
    await expect(page.locator('.trust-words')).toBeFocused();
    await expectSoundInBothLooks(page, 'a stopped check');

    await page.keyboard.press('Tab');
    await expect(page.getByRole('button', { name: 'Check it again' })).toBeFocused();
    await page.keyboard.press('Enter');
    await expect(bar).toBeVisible();
    await expect.poll(() => checks.length).toBe(2);
    await page.goto(new URL('/#/queue', page.url()).href);
    await page.getByRole('button', { name: 'Check a run file' }).waitFor();
    const stateOf = async (jobId: string | undefined) => (await callHost<PaperJob>(page, 'getJob', { jobId })).state;
    await expect.poll(() => stateOf(checks[1])).toBe('stopped');
    expect(await stateOf(checks[0])).toBe('stopped');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('a table of 10,000 runs tells how far it is and is stopped', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  let host = await startHost(folder.path);
  try {
    await openApp(page, host);
    const yard = await staffYard(page, 0, 0);
    await callHost(page, 'importRun', { text: longRunText() });
    await host.stop();
    fillYard(folder.path, { people: 200, runs: 10_000 });
    host = await startHost(folder.path);
    const complaints = await openApp(page, host);
    await arriveAs(page, yard.instructorId, 'backup');
    await stopAtFirstProgress(page, 'The table is being written');
    await page.getByRole('button', { name: 'All measures (CSV)' }).press('Enter');
    await expect(page.locator('[data-file-job="stopped"]')).toContainText('Stopped. No file was made.');
    await expectSoundInBothLooks(page, 'a stopped table');
    const coming = page.waitForEvent('download', { timeout: 60_000 });
    await page.getByRole('button', { name: 'All runs (CSV)' }).press('Enter');
    const name = (await coming).suggestedFilename();
    await expect(page.locator('[data-file-job="done"]')).toContainText(`Saved: ${name}`);
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
