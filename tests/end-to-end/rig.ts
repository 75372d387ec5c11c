import type { Page } from '@playwright/test';
import type { RunRecord } from '../../electron/contract.ts';
import { en, type TextTable } from '../../renderer/text/en.ts';
import { PART_IDS } from '../../sim-core/index.ts';
import { callHost } from './imported-run.ts';

/** What is to be chosen of the sheets; letters and words as they stand on the page. */
export interface RigOnPage {
  nozzle: RegExp;
  supplyBar: number;
  currentA: number;
  clamp: RegExp;
  shade: string;
  ventilation: string;
  combustibles: string;
  fireWatch: string;
  ticks: string[];
  guideOffsetMm?: number;
}

export const WORN = [en['rig.wear.gloves'], en['rig.wear.jacket'], en['rig.wear.hearing'], en['rig.wear.respirator']];

/** A rig that is right for 6 mm steel at 45 A on 8 m of hose. */
export const RIGHT_FOR_SIX: RigOnPage = {
  nozzle: /^Narrow bore/,
  supplyBar: 5.7,
  currentA: 45,
  clamp: /bare metal/,
  shade: '8',
  ventilation: 'Extraction at the work',
  combustibles: 'Carried away',
  fireWatch: '60 min',
  ticks: [...WORN, en['rig.gas.trap'], en['rig.guard']],
};

/** The painted step, whose rig is the trainee's: its card on the home page, and what is right for it. */
export const TRAILER_STEP = /Go to the bench: Trailer step/;
export const RIGHT_FOR_TRAILER_STEP: RigOnPage = {
  ...RIGHT_FOR_SIX,
  clamp: /right, near; bare metal/,
  ticks: [...RIGHT_FOR_SIX.ticks, en['rig.coating']],
};

/** From the home page to the rig of a drill, in the language of the page. */
export async function openRig(page: Page, title: RegExp, words: TextTable = en): Promise<void> {
  await page.getByRole('button', { name: title }).click();
  await page.getByRole('button', { name: words['card.start-rig'] }).click({ timeout: 90_000 });
  await page.getByRole('heading', { name: words['rig.title'] }).waitFor();
}

/** Fits, sets and does everything as told, with the widgets of the page. */
export async function prepareRig(page: Page, rig: RigOnPage): Promise<void> {
  for (const part of PART_IDS) await page.getByRole('button', { name: `Put on: ${en[`part.${part}`]}` }).click();
  const pick = async (group: string, option: string | RegExp) => {
    await page.getByRole('radiogroup', { name: group }).getByText(option, { exact: true }).first().click();
  };
  await pick('Which nozzle', rig.nozzle);
  await page.getByRole('slider', { name: 'At the regulator, gas flowing' }).fill(String(rig.supplyBar));
  await page.getByRole('slider', { name: /^Current/ }).fill(String(rig.currentA));
  await pick('Where it bites', rig.clamp);
  await pick('Filter before the eyes, shade number', rig.shade);
  await pick('Air', rig.ventilation);
  await pick('What can burn', rig.combustibles);
  await pick('Fire watch after the last cut', rig.fireWatch);
  for (const words of rig.ticks) await page.locator('label.tick', { hasText: words }).click();
  if (rig.guideOffsetMm !== undefined) {
    await page.getByRole('slider', { name: /^Guide set|^Circle arm/ }).fill(String(rig.guideOffsetMm));
  }
}

/** What went into the record of a run. */
export function recordOf(page: Page, runId: string): Promise<RunRecord> {
  return callHost<RunRecord>(page, 'getRun', { runId });
}

export function runIdOf(page: Page): string {
  return new URL(page.url()).hash.replace('#/run/', '');
}
