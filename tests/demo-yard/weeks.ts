/** What a week asks of every group. */
export interface Week {
  title: string;
  drillIds: readonly string[];
  /** Each drill is an assessment: no cues, a few attempts, handed in. */
  isAssessment?: boolean;
  attempts?: number;
  cueLevel?: 'full' | 'alternate';
  order?: 'mixed' | 'as-listed';
  /** Passed runs are handed in for a decision. */
  handsIn?: boolean;
  /** No date: what is open to the last stays open. */
  undated?: boolean;
}

export const FIRST_MONDAY_MS = Date.UTC(2025, 8, 1);
export const DAY_MS = 86_400_000;

/** Eight weeks of one autumn in the Tidewater Row slipway yard. */
export const WEEKS: readonly Week[] = [
  { title: 'First straight lines', drillIds: ['guard-patch-straight-3', 'galley-panel-straight-3'] },
  { title: 'To a stop, and through thin plate', drillIds: ['drain-slot-stop-6', 'galley-panel-contact-1-5'] },
  { title: 'Marks, and a stand-off pierce', drillIds: ['blank-layout-marks-3', 'cleat-base-stand-off-8'], handsIn: true },
  { title: 'Half-way test', drillIds: ['gangway-tread-straight-5'], isAssessment: true, attempts: 3 },
  { title: 'Rolling pierce and mesh', drillIds: ['rudder-washer-rolling-12', 'drain-grating-mesh-4'], cueLevel: 'alternate' },
  { title: 'Groove and template', drillIds: ['hanger-weld-gouge-12', 'cradle-pad-template-4'], handsIn: true },
  {
    title: 'Bevel, rig, and what is wrong here?',
    drillIds: ['cradle-plate-bevel-8', 'bilge-tank-rig-check-3', 'what-is-wrong-second-6'],
    order: 'as-listed',
    undated: true,
  },
  { title: 'Lifting eye: the test', drillIds: ['assessment-lifting-eye-10'], isAssessment: true, undated: true },
];

/** Days of the week, 0 = Monday, on which each group is at the bench, and the hour at which it begins, UTC. */
export const GROUPS = [
  { name: 'Morning watch', days: [0, 2], hour: 6 },
  { name: 'Noon watch', days: [1, 3], hour: 10 },
  { name: 'Evening watch', days: [2, 4], hour: 15 },
] as const;

/** Midnight of a day of a week; `week` from 1. */
export function dayMs(week: number, day: number): number {
  return FIRST_MONDAY_MS + ((week - 1) * 7 + day) * DAY_MS;
}
