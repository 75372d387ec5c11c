import type { Sample } from '../run/types.ts';

/** Mean spark angle over the steady part. */
export interface SteadyAngle {
  take(sample: Readonly<Sample>): void;
  /** Deg; null where less than half of the steps throw metal from the underside. */
  meanDeg(): number | null;
}

export function createSteadyAngle(): SteadyAngle {
  let sum = 0;
  let read = 0;
  let steps = 0;
  return {
    take(sample) {
      steps++;
      if (Number.isNaN(sample.sparkAngleDeg) || sample.underMm3PerS <= sample.topMm3PerS) return;
      sum += sample.sparkAngleDeg;
      read++;
    },
    meanDeg: () => (read * 2 >= steps && steps > 0 ? sum / read : null),
  };
}
