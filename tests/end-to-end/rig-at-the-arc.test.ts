import { expect, test } from '@playwright/test';
import { goToEdgeWithKeys, untilStep } from './hands.ts';
import { openApp, reviewReady } from './page.ts';
import { openRig, prepareRig, RIGHT_FOR_TRAILER_STEP, recordOf, runIdOf, TRAILER_STEP } from './rig.ts';
import { inYard } from './start-host.ts';

test('what was chosen goes into the simulation and into the record; a wrong clamp shows itself at the arc', async ({ page }) => {
  test.setTimeout(180_000);
  await inYard(async (host) => {
    await openApp(page, host);
    await openRig(page, TRAILER_STEP);
    await prepareRig(page, { ...RIGHT_FOR_TRAILER_STEP, clamp: /paint$/ });
    await page.getByRole('button', { name: 'Strike the arc' }).click();
    await page.locator('.bench[data-tier="lite"], .bench[data-tier="middle"], .bench[data-tier="full"]').waitFor();
    await goToEdgeWithKeys(page, 1);
    await untilStep(page, 'strike');
    await page.keyboard.down('Space');
    await expect(page.locator('[data-gas-flows="true"]')).toBeVisible();
    // A clamp on paint carries no current back: the pilot burns over the metal and stays a pilot.
    await expect(page.locator('[data-signs~="pilot-only"]')).toContainText('does not go over', { timeout: 20_000 });
    await page.keyboard.up('Space');
    await page.keyboard.press('e');
    await reviewReady(page);
    await expect(page.locator('.review')).toHaveAttribute('data-verdict', 'same');
    const { choices } = await recordOf(page, runIdOf(page));
    expect(choices).toMatchObject({
      stack: ['electrode', 'swirl-ring', 'nozzle', 'cap', 'shield'],
      nozzle: 'small',
      shield: 'contact',
      mode: 'cut',
      currentA: 45,
      supplyBar: 5.7,
      waterTrapDrained: true,
      clampSpot: 'painted-corner',
      protection: { shade: 8, gloves: true, jacket: true, hearing: true, respirator: true },
      ventilation: 'extraction',
      combustibles: 'cleared',
      fireWatchMin: 60,
      triggerGuardClosed: true,
      coatingRemoved: true,
    });
    // The one thing that was wrong is what the mark of the rig check was lost on.
    await expect(page.locator('[data-measure="rig-check"]')).toBeVisible();
  });
});
