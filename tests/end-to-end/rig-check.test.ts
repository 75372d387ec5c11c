import { expect, test } from '@playwright/test';
import { callHost } from './imported-run.ts';
import { openApp } from './page.ts';
import { openRig, prepareRig, RIGHT_FOR_TRAILER_STEP, TRAILER_STEP } from './rig.ts';
import { startHost, temporaryFolder } from './start-host.ts';

test('an unsafe rig gets no arc: the reason and its published source stand there, and nothing is begun', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    const complaints = await openApp(page, host);
    await openRig(page, TRAILER_STEP);
    await page.getByRole('button', { name: 'Strike the arc' }).click();
    const notice = page.getByRole('alert');
    await expect(page.getByRole('heading', { name: 'No arc yet' })).toBeFocused();
    await expect(notice.locator('[data-finding="no-eye-protection"]')).toContainText('29 CFR 1910.133(a)(5)');
    await expect(notice.locator('[data-finding="combustibles-left"]')).toContainText('35 feet (10.7 m)');
    await expect(notice.locator('[data-finding="coating-left"]')).toContainText('from memory');
    await expect(notice).toContainText('own manual, your employer’s rules and local codes');
    // Merely wrong is not told here: the parts still lie in their box.
    await expect(notice).not.toContainText('part');
    await expect(page.locator('.bench')).toHaveAttribute('data-phase', 'rig-check');

    await notice.getByRole('button', { name: 'Go to: You' }).click();
    await expect(page.locator('#rig-person')).toBeFocused();
    await prepareRig(page, { ...RIGHT_FOR_TRAILER_STEP, shade: '5' });
    await page.getByRole('button', { name: 'Strike the arc' }).click();
    await expect(page.locator('[data-finding]')).toHaveCount(1);
    await expect(page.locator('[data-finding="shade-too-light"]')).toContainText('shade 8');
    expect((await callHost<{ total: number }>(page, 'listRuns', {})).total).toBe(0);

    await page
      .getByRole('radiogroup', { name: /shade number/ })
      .getByText('8', { exact: true })
      .click();
    await page.getByRole('button', { name: 'Strike the arc' }).click();
    await expect(page.locator('.bench')).toHaveAttribute('data-phase', 'cutting');
    expect(complaints).toEqual([]);
  } finally {
    await host.stop();
    folder.remove();
  }
});

test('the whole rig can be prepared with the keyboard alone', async ({ page }) => {
  test.setTimeout(180_000);
  const folder = temporaryFolder();
  const host = await startHost(folder.path);
  try {
    await openApp(page, host);
    await openRig(page, TRAILER_STEP);
    const { keyboard } = page;
    const tabTo = async (inside: string) => {
      for (let n = 0; n < 80; n += 1) {
        if (await page.evaluate((selector) => document.activeElement?.closest(selector) !== null, inside)) return;
        await keyboard.press('Tab');
      }
      throw new Error(`Tab does not reach ${inside}.`);
    };
    const tabToButton = (name: string) => tabTo(`[aria-label="${name}"]`);
    await page.locator('#rig-parts').focus();
    for (const part of ['Swirl ring', 'Electrode', 'Nozzle', 'Cap', 'Shield']) {
      await page.locator('#rig-parts').focus();
      await tabToButton(`Put on: ${part}`);
      await keyboard.press('Enter');
    }
    // In the wrong order on purpose: the electrode goes one place toward the handle.
    await expect(page.locator('[data-stack]')).toHaveAttribute('data-stack', 'swirl-ring electrode nozzle cap shield');
    await tabToButton('One place toward the handle: Electrode');
    await keyboard.press('Enter');
    await expect(page.locator('[data-stack]')).toHaveAttribute('data-stack', 'electrode swirl-ring nozzle cap shield');
    await tabTo('[data-sheet="gas"] .gauge');
    for (let n = 0; n < 57; n += 1) await keyboard.press('ArrowRight');
    await expect(page.locator('[data-sheet="gas"] .gauge-value')).toHaveText('5.7\u00a0bar');
    await expect(page.locator('[data-sheet="gas"] .gauge input')).toHaveAttribute('aria-valuetext', '5.7\u00a0bar');
    await tabTo('[data-sheet="gas"] .tick');
    await keyboard.press('Space');
    await tabTo('[data-sheet="clamp"] .choice');
    await keyboard.press('ArrowDown');
    await expect(page.locator('[data-sheet="clamp"] [data-selected]')).toHaveText(/^A:/);
    await tabTo('[data-sheet="source"] .tick');
    await keyboard.press('Space');
    await tabTo('[data-sheet="person"] .choice');
    for (let n = 0; n < 4; n += 1) await keyboard.press('ArrowRight');
    await expect(page.locator('[data-sheet="person"] .choice [data-selected]')).toHaveText('8');
    for (let n = 0; n < 4; n += 1) {
      await keyboard.press('Tab');
      await keyboard.press('Space');
    }
    await tabTo('[data-sheet="place"] .choice');
    await keyboard.press('ArrowRight');
    await keyboard.press('Tab');
    await keyboard.press('ArrowRight');
    await keyboard.press('ArrowRight');
    await tabTo('[data-sheet="place"] .tick');
    await keyboard.press('Space');
    await tabTo('.rig-strike');
    await keyboard.press('Enter');
    await expect(page.locator('.bench')).toHaveAttribute('data-phase', 'cutting');
    await expect(page.locator('.bench-stage')).toBeFocused();
  } finally {
    await host.stop();
    folder.remove();
  }
});
