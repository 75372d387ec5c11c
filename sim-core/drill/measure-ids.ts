/** What a run is marked on. Each has its own file in scoring/; a rubric names those that count. */
export const MEASURE_IDS = [
  'severance',
  'travel-speed',
  'spark-angle',
  'squareness',
  'stand-off',
  'line-following',
  'edge-dwell',
  'steadiness',
  'end-of-cut',
] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];
