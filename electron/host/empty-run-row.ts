/** Columns that a run has no value for when it is new. */
export const emptyRunRow = {
  ended_at: null,
  tick_count: 0,
  final_digest: null,
  score: null,
  passed: null,
  trace_hz: null,
  choices: null,
  diagnosis: null,
  assignment_id: null,
  sealed: 0,
  submitted_at: null,
  decision: null,
  decided_at: null,
  decided_by: null,
  weakest_measure: null,
  used: null,
};
