import { TICK_HZ } from './types.ts';

/**
 * Turns wall time into whole ticks. A display that stalls is caught up with by at most `longestCatchUpS`; time beyond that
 * is dropped (the simulation pauses), so that a slow machine never falls into a spiral. The number of ticks never changes
 * what a tick does.
 */
export interface TickDriver {
  /** Ticks due at this time, ms; call with times that do not run backwards. */
  due(nowMs: number): number;
  /** Forgets the time gone by, as after a pause. */
  reset(): void;
}

export function createTickDriver(longestCatchUpS = 0.25): TickDriver {
  const tickMs = 1000 / TICK_HZ;
  const longest = longestCatchUpS * TICK_HZ;
  let last = -1;
  let owed = 0;
  return {
    due(nowMs) {
      if (last < 0) {
        last = nowMs;
        return 0;
      }
      owed += (nowMs > last ? nowMs - last : 0) / tickMs;
      last = nowMs;
      if (owed > longest) owed = longest;
      const whole = (owed + 1e-9) | 0;
      owed -= whole;
      return whole;
    },
    reset() {
      last = -1;
      owed = 0;
    },
  };
}
