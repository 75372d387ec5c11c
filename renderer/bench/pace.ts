/** Steps of the guide in which the hand is on its way along the line. */
const ON_THE_WAY: ReadonlySet<string> = new Set([
  'move',
  'faster',
  'slower',
  'on-line',
  'lower-cutting',
  'raise-cutting',
  'upright',
  'cross-gap',
  'finish',
  'close',
]);
/** Steps in which the hand is sent back to where the metal was last cut, and how far behind the hand that is, mm. */
const BACK_MM: Partial<Record<string, number>> = { 'cut-lost': 6, 'arc-out': 1 };
/**
 * The mark waits for a hand that falls behind by this: whoever catches up with it in one go is not much too fast. An eye and a hand
 * need a moment to follow, in which a fast mark has gone farther.
 */
const LEAD_MM = 4;
const LEAD_S = 0.35;
/** It goes no farther past the end than a hand has to, mm. */
const PAST_END_MM = 6;

export interface Pace {
  /** Where along the line the hand should be at a simulated second; null while there is nothing to keep pace with. */
  at(step: string, seconds: number, handAlongMm: number): number | null;
}

/** A mark that goes along the line at one even speed, from where the hand is when it may move. */
export function createPace(speedMmPerS: number, lengthMm: number): Pace {
  let placeMm: number | null = null;
  let backMm: number | null = null;
  let farthestMm = 0;
  let lastS = Number.NaN;
  const leadMm = Math.max(LEAD_MM, speedMmPerS * LEAD_S);
  return {
    at(step, seconds, handAlongMm) {
      const elapsed = Number.isNaN(lastS) ? 0 : Math.max(0, seconds - lastS);
      lastS = seconds;
      const back = BACK_MM[step];
      if (back !== undefined) {
        placeMm = null;
        backMm ??= Math.max(0, farthestMm - back);
        return backMm;
      }
      backMm = null;
      if (!ON_THE_WAY.has(step)) {
        placeMm = null;
        return null;
      }
      farthestMm = handAlongMm;
      const went = (placeMm ?? handAlongMm) + (placeMm === null ? 0 : speedMmPerS * elapsed);
      placeMm = Math.min(went, handAlongMm + leadMm, lengthMm + PAST_END_MM);
      return placeMm;
    },
  };
}
