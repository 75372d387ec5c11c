export interface WeekOfRuns {
  runs: number;
  meanScore: number;
}

/** So many runs at least are averaged: the mean of one or two says more of chance than of the class. */
export const LEAST_RUNS = 10;

export interface LateMean {
  score: number;
  /** How many runs it is the mean of. */
  runs: number;
}

/** Mean score of the last runs: of whole weeks from the last one back, until there are enough. Null where there is no run. */
export function lateMean(weeks: readonly WeekOfRuns[]): LateMean | null {
  let runs = 0;
  let sum = 0;
  for (const week of weeks.toReversed()) {
    if (runs >= LEAST_RUNS) break;
    runs += week.runs;
    sum += week.runs * week.meanScore;
  }
  return runs === 0 ? null : { score: sum / runs, runs };
}
