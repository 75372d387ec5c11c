import type { HandSettings, KeptHandScale } from '../../electron/contract.ts';
import { ACCELERATION_LIMIT, type HandScale } from '../../sim-core/index.ts';

/** Which screen the page is shown on, as far as a page can know: with another one, or another magnification, a measured hand no longer holds. */
export function placeNow(): string {
  const { screen, devicePixelRatio } = window;
  return `${screen.width}x${screen.height}@${Math.round(devicePixelRatio * 100) / 100}`;
}

/** The hand of somebody at a device, as it was measured at this screen; null where it was not. */
export function scaleOf(
  settings: HandSettings,
  personId: string | null,
  device: KeptHandScale['device'],
  place: string,
): KeptHandScale | null {
  return settings.scales.find((scale) => scale.personId === personId && scale.device === device && scale.place === place) ?? null;
}

/** What the settings become when a hand has been measured: it takes the place of an earlier one of the same hand. */
export function withScale(settings: HandSettings, measured: KeptHandScale, most = 500): HandSettings {
  const { personId, device, place } = measured;
  const others = settings.scales.filter(
    (scale) => scale.personId !== personId || scale.device !== device || scale.place !== place,
  );
  return { ...settings, scales: [...others, measured].slice(-most) };
}

/** Fast and slow movement disagree too much for the hand to be one to one. */
export function isAccelerated(scale: Pick<HandScale, 'acceleration'>): boolean {
  return scale.acceleration > ACCELERATION_LIMIT;
}

/** What is kept of it with a run. */
export function scaleForRun(scale: KeptHandScale, applied: boolean): HandScale {
  const { device, measuredAt, pxPerMm, spread, acceleration, raw } = scale;
  return { device, measuredAt, pxPerMm, spread, acceleration, raw, applied };
}
