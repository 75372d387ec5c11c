import type { HandSpeed } from '../drill/hand-script-schema.ts';

/** The speeds between which the core says that the drill's metal cuts well, and its pause at the edge; nulls where it cannot be cut. */
export interface HandWindow {
  windowLowMmPerS: number | null;
  windowHighMmPerS: number | null;
  edgeDwellS: number | null;
}

/** Slowest and fastest a scripted hand ever goes, mm/s. */
const SLOWEST_MM_PER_S = 0.1;
const FASTEST_MM_PER_S = 400;

/** A script's speed in mm/s. Throws RangeError where it is meant relative to a window that does not exist. */
export function speedMmPerS(speed: HandSpeed, window: HandWindow): number {
  const mmPerS = 'mmPerS' in speed ? speed.mmPerS : relative(speed, window);
  if (mmPerS < SLOWEST_MM_PER_S) return SLOWEST_MM_PER_S;
  return mmPerS > FASTEST_MM_PER_S ? FASTEST_MM_PER_S : mmPerS;
}

function relative(speed: { inWindow: number } | { timesMiddle: number }, window: HandWindow): number {
  const { windowLowMmPerS: low, windowHighMmPerS: high } = window;
  if (low === null || high === null) {
    throw new RangeError('The hand takes its speed from the speed window, and this metal has none at this current.');
  }
  return 'inWindow' in speed ? low + speed.inWindow * (high - low) : (speed.timesMiddle * (low + high)) / 2;
}
