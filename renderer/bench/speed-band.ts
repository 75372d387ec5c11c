import type { SpeedWindow } from '../../sim-core/index.ts';

/** Speeds that the cues call right, mm/s. Metal without a window is shown up to a little below the speed that loses the cut. */
export function speedBandOf(window: SpeedWindow): { low: number; high: number } {
  return {
    low: window.windowLowMmPerS ?? 0,
    high: window.windowHighMmPerS ?? Math.max(1, (window.losingSpeedMmPerS ?? 20) * 0.9),
  };
}
