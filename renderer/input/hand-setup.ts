import type { HandSettings } from '../../electron/contract.ts';
import type { HandScale } from '../../sim-core/index.ts';
import type { HandController } from './hand-controller.ts';
import { placeNow, scaleForRun, scaleOf } from './hand-scale.ts';

/** How the devices move the torch in this run: the settings, and the measured hand of whoever practises at this screen. */
export interface HandSetup {
  settings: HandSettings;
  mouse: ReturnType<typeof scaleOf>;
  pen: ReturnType<typeof scaleOf>;
}

export function handSetup(settings: HandSettings, personId: string | null): HandSetup {
  const place = placeNow();
  return { settings, mouse: scaleOf(settings, personId, 'mouse', place), pen: scaleOf(settings, personId, 'pen', place) };
}

/** The mouse has to be held, because it is measured and its hand is used. */
export function takesTorch({ settings, mouse }: HandSetup): boolean {
  return settings.oneToOne && mouse !== null && settings.leansWith !== 'mouse';
}

/** What is kept with a run of how far its hand was the torch's; null where the device that moves it was not measured, or cannot be. */
export function runScale(
  { settings, mouse, pen }: HandSetup,
  { device, movedBy }: Pick<HandController, 'device' | 'movedBy'>,
): HandScale | null {
  const by = movedBy ?? device;
  const scale = by === 'mouse' ? mouse : by === 'pen' ? pen : null;
  return scale === null ? null : scaleForRun(scale, settings.oneToOne);
}
