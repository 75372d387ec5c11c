/** Steps of the guide in which the hand is on its way along the line. */
const ON_THE_WAY: ReadonlySet<string> = new Set([
  'move',
  'faster',
  'slower',
  'on-line',
  'lower-cutting',
  'raise-cutting',
  'upright',
  'finish',
  'close',
]);
/** The pace waits for a hand that falls behind by this, and goes no farther past the end than a hand has to, mm. */
const LEAD_MM = 12;
const PAST_END_MM = 6;

export interface Pace {
  /** Where along the line the hand should be at a simulated second; null while there is nothing to keep pace with. */
  at(step: string, seconds: number, handAlongMm: number): number | null;
}

/** A mark that goes along the line at one even speed, from where the hand is when it may move. */
export function createPace(speedMmPerS: number, lengthMm: number): Pace {
  let placeMm: number | null = null;
  let lastS = Number.NaN;
  return {
    at(step, seconds, handAlongMm) {
      const elapsed = Number.isNaN(lastS) ? 0 : Math.max(0, seconds - lastS);
      lastS = seconds;
      if (!ON_THE_WAY.has(step)) {
        placeMm = null;
        return null;
      }
      const went = (placeMm ?? handAlongMm) + (placeMm === null ? 0 : speedMmPerS * elapsed);
      placeMm = Math.min(went, handAlongMm + LEAD_MM, lengthMm + PAST_END_MM);
      return placeMm;
    },
  };
}
