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
  'pierce',
  'groove-depth',
  'groove-evenness',
  'part-size',
  'gap-crossing',
  'cut-quality',
  'torch-parts',
  'rig-check',
  'fault-finding',
] as const;
export type MeasureId = (typeof MEASURE_IDS)[number];

/** The measures that say what became of the job: a rubric without one of them would mark manners only. */
export const OUTCOME_MEASURES: readonly MeasureId[] = ['severance', 'groove-depth', 'fault-finding'];
