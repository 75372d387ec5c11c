/**
 * Follows the arc's light without ever flashing: WCAG 2.3.1 allows no more than three general flashes in any second, and a flash needs
 * a rise. A rise that has begun goes on; the next may begin only a while after it, and until then the light stays where it has sunk to.
 */
export interface SteadyGlow {
  /** Brightness shown, 0 to 1. */
  readonly level: number;
  /** True while it still has somewhere to go. */
  readonly moving: boolean;
  /** One step of wall time, however fast the run plays; `still` = the picture stands, so there is nothing to fade from. */
  step(wanted: number, seconds: number, calm: boolean, still: boolean): number;
}

/** Rises begin at least so long after one another, s: at most three in any second, and at most one where calm is asked for. */
export const RISES_APART_S = { plain: 0.4, calm: 1.5 } as const;
/** How quickly the light follows, 1/s. */
const RATE = { plain: 7, calm: 2 } as const;
/** Differences this small are no change of direction. */
const SAME = 0.01;
/** A hidden page comes back after minutes: no step is longer than this, s. */
const LONGEST_STEP_S = 0.2;

export function createSteadyGlow(start = 0): SteadyGlow {
  let level = start;
  let rising = false;
  let sinceRiseS = Number.POSITIVE_INFINITY;
  let moving = false;
  return {
    get level() {
      return level;
    },
    get moving() {
      return moving;
    },
    step(wanted, seconds, calm, still) {
      const pace = calm ? 'calm' : 'plain';
      sinceRiseS += Math.max(0, seconds);
      const difference = wanted - level;
      if (difference < -SAME) rising = false;
      if (difference > SAME && !rising && sinceRiseS >= RISES_APART_S[pace]) {
        rising = true;
        sinceRiseS = 0;
      }
      const held = difference > 0 && !rising;
      const share = still ? 1 : 1 - Math.exp(-Math.min(LONGEST_STEP_S, Math.max(0, seconds)) * RATE[pace]);
      if (!held) level += difference * share;
      moving = Math.abs(wanted - level) > SAME;
      return level;
    },
  };
}
