import { CORE_VERSION, type CutCondition, type SpeedWindow } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';

const keyOf = (condition: CutCondition) => ({ coreVersion: CORE_VERSION, ...condition });

/** A window that was found before, on this machine by this core; null where there is none, or where nothing is kept. */
export async function knownWindow(condition: CutCondition | null): Promise<SpeedWindow | null> {
  if (condition === null) return null;
  const { window } = await callHost('getSpeedWindow', keyOf(condition)).catch(() => ({ window: null }));
  if (window === null) return null;
  const { reason, ...figures } = window;
  return reason === null ? figures : { ...figures, reason };
}

/** Worth keeping: it cost seconds. Where it cannot be kept it is found again next time. */
export function keepWindow(condition: CutCondition, found: SpeedWindow): void {
  const { reason = null, ...figures } = found;
  callHost('putSpeedWindow', { key: keyOf(condition), window: { ...figures, reason } }).catch(() => undefined);
}
