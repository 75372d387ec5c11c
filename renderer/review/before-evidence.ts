import { type Evidence, TICK_HZ } from '../../sim-core/index.ts';

const LEAD_TICKS = TICK_HZ / 4;

/** The tick from which a stretch that counted is shown: a moment before it begins. */
export function beforeEvidence({ fromTick }: Evidence): number {
  return Math.max(0, fromTick - LEAD_TICKS);
}
