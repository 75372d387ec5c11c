import { clamp } from '../math/elementary.ts';
import { TICK_HZ } from '../run/types.ts';

/** A figure of the pose that is being changed over some time: height or lean. */
export interface Ramp {
  from: number;
  to: number;
  ticks: number;
  done: number;
}

export function startRamp(from: number, to: number, overS: number): Ramp {
  return { from, to, ticks: overS * TICK_HZ < 1 ? 1 : overS * TICK_HZ, done: 0 };
}

/** The figure after one more tick: begins and ends at rest. */
export function advanceRamp(ramp: Ramp): number {
  ramp.done++;
  const share = clamp(ramp.done / ramp.ticks, 0, 1);
  return ramp.from + (ramp.to - ramp.from) * share * share * (3 - 2 * share);
}

export function rampEnded(ramp: Ramp | null): boolean {
  return ramp === null || ramp.done >= ramp.ticks;
}
