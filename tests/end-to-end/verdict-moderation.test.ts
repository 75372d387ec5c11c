import { expect, type Page, test } from '@playwright/test';
import { expectSound, expectSoundInBothLooks } from './expect-sound.ts';
import { arriveAs, handIn, staffYard } from './handed-in-run.ts';
import { openApp } from './page.ts';
import { startHost, temporaryFolder } from './start-host.ts';

const DRILL = 'guard-patch-straight-3';

/** Judges the first run that is still to judge, with a reason and, where given, another mark for the travel speed. */
async function judge(page: Page, decision: string, speedMark: string | null): Promise<void> {
  await page
    .getByRole('button', { name: /^Judge / })
    .first()
    .click();
  await page.getByRole('tab', { name: 'Verdict' }).click();
  await page.locator('[data-trust="same"]').waitFor({ timeout: 60_000 });
  await page.getByRole('radio', { name: decision, exact: true }).focus();
  await page.keyboard.press('Space');
  await page.getByRole('textbox', { name: 'Reasons' }).fill('As the traces show.');
  if (speedMark !== null) {
    await page.getByRole('button', { name: 'Overrule Travel speed' }).click();
    await page.getByRole('textbox', { name: 'New mark' }).fill(speedMark);
    await page.getByRole('textbox', { name: 'Why' }).fill('Even all along.');
  }
  await page.getByRole('button', { name: 'Give this judgement' }).press('Enter');
  await expect(page.locator('.verdict [role="status"]', { hasText: 'Judged.' })).toBeFocused();
  await page.getByRole('button', { name: 'To the set' }).click();
}

test('two assessors judge a set blind; their agreement is told once both are through', async ({ page }) => {
  test.setTimeout(240_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    const yard = await staffYard(page, 2, 3);
    const [first, second] = yard.assessorIds as [string, string];
    const faults = ['too-fast', null, 'leaning'] as const;
    for (const [n, fault] of faults.entries()) await handIn(page, yard.apprenticeIds[n] as string, DRILL, fault, 3 + n);

    await arriveAs(page, first, 'moderation');
    await page.getByRole('button', { name: 'Make a set' }).click();
    await page.getByRole('textbox', { name: 'Name' }).fill('Week 8');
    for (const box of await page.getByRole('checkbox').all()) {
      await box.focus();
      await page.keyboard.press('Space');
    }
    await expectSound(page, 'making a set');
    await page.getByRole('button', { name: 'Make the set' }).click();
    await page.getByRole('button', { name: 'Open Week 8' }).click();
    await expect(page.locator('.queue-main')).toContainText('once both are through');
    await judge(page, 'Not yet competent', null);
    await judge(page, 'Competent', null);
    await judge(page, 'Competent', null);
    await expect(page.getByRole('button', { name: /^Judge / })).toHaveCount(0);
    await expect(page.locator('.agreement')).toHaveCount(0);

    await arriveAs(page, second, 'moderation');
    await page.getByRole('button', { name: 'Open Week 8' }).click();
    await expect(page.locator('.queue-main')).toContainText('Assessor 01: 3 of 3');
    // Nothing of the first assessor's is to be seen before this one is through.
    await expect(page.locator('.queue-main [data-decision]')).toHaveCount(0);
    await judge(page, 'Competent', '80');
    await judge(page, 'Competent', null);
    await judge(page, 'Not yet competent', null);

    // Decisions N C C and C C N: the same on one of three; by chance (2/3)(2/3) + (1/3)(1/3) = 5/9; kappa (1/3 - 5/9) / (4/9).
    const kappa = Number(await page.locator('[data-kappa]').getAttribute('data-kappa'));
    expect(kappa).toBeCloseTo((1 / 3 - 5 / 9) / (4 / 9), 9);
    await expect(page.locator('[data-kappa]')).toContainText('−0.50');
    await expect(page.locator('[data-kappa]')).toContainText('less than chance');
    const icc = await page.locator('[data-icc]').getAttribute('data-icc');
    expect(icc).not.toBe('');
    expect(Number(icc)).toBeLessThanOrEqual(1);
    await expect(page.getByRole('table', { name: 'Different decisions' }).locator('tbody tr')).toHaveCount(2);
    await expect(page.locator('.agreement')).toContainText(/Travel speed \d+ \/ 80/);
    await expectSoundInBothLooks(page, 'agreement');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});
