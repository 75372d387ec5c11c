import type { CautionId, MeasureId } from '../../../sim-core/index.ts';

/** Every word of the printed report that is not in the run itself: the one place to translate it. */
export const REPORT_WORDS = {
  title: 'Report of a training run',
  of100: 'of 100',
  passed: 'Passed by the drill’s rule',
  notPassed: 'Not passed by the drill’s rule',
  unfinished: 'Not finished: no marks',
  competent: 'Competent',
  notYetCompetent: 'Not yet competent',
  noVerdict: 'No verdict yet',
  verdict: 'Verdict',
  noVerdictLong: 'No assessor has decided on this run.',
  decidedBy: (assessor: string, at: string) => `${assessor}, ${at}`,
  signedWith: (keyId: string) => `Signed with key ${keyId.slice(0, 16)}`,
  notSigned: 'Not signed',
  scoreAfter: (score: string) => `Score with the assessor’s marks: ${score}`,
  overruled: (measure: string, from: string, to: string, reason: string) => `${measure} ${from} overruled to ${to}: ${reason}`,
  moreOverruled: (count: number) => `and ${count} more overruled (whole in the records)`,
  measures: 'Measures',
  mark: 'Mark',
  weight: 'Weight',
  atLeast: (mark: string) => `at least ${mark}`,
  assessorsMark: (mark: string) => `assessor: ${mark}`,
  at: (seconds: string) => `from ${seconds} s`,
  traces: 'Traces',
  tracesAbout: 'Shaded: what counts as right. Only while the arc burns on the metal.',
  noTrace: 'This run holds no traces.',
  noPictures: 'No pictures were passed on with this report.',
  firstThing: 'First thing to change: ',
  facts: {
    person: 'Cut by',
    began: 'Begun',
    metal: 'Metal',
    rig: 'Rig',
    hand: 'Device',
    lasted: 'Lasted',
    record: 'Record',
  },
  nobody: 'not named',
  seconds: (value: string) => `${value} s`,
  rig: (rig: string, current: string) => `class ${rig}, set to ${current} A`,
  record: (core: string, seed: number, digest: string) => `core ${core}, seed ${seed}, run ${digest.slice(0, 16)}`,
  cautions: 'On real plate',
  always:
    'Follow the machine’s own manual, the employer’s rules and local codes; electrical installation is for a licensed electrician.',
  estimates:
    'Figures are estimates for training. This report qualifies nobody to cut; it prepares for supervised work on real plate.',
  unprintable: 'Characters that this page cannot print stand as a question mark.',
  cutShort: '... (whole in the records)',
  made: (at: string, version: string) => `Kerfhand ${version}, printed ${at}`,
} as const;

export const MATERIAL_WORDS: Record<string, string> = {
  'mild-steel': 'Mild steel',
  'stainless-steel': 'Stainless steel',
  aluminium: 'Aluminium',
};

export const MEASURE_WORDS: Record<MeasureId, string> = {
  severance: 'Cut through',
  'travel-speed': 'Travel speed',
  'spark-angle': 'Spark lean',
  squareness: 'Squareness',
  'stand-off': 'Stand-off',
  'line-following': 'On the line',
  'edge-dwell': 'Pause at the edge',
  steadiness: 'Steadiness',
  'end-of-cut': 'End of the cut',
  pierce: 'Pierce',
  'groove-depth': 'Groove depth',
  'groove-evenness': 'Evenness of the groove',
  'part-size': 'Size of the part',
  'gap-crossing': 'Across the openings',
  'cut-quality': 'Cut face',
  'torch-parts': 'Torch parts',
  'rig-check': 'Rig check',
  'fault-finding': 'Finding the fault',
};

/** Short ones for paper, each with where its figure stands. */
export const CAUTION_WORDS: Record<CautionId, string> = {
  'electric-shock':
    'Electric shock: the open-circuit voltage can kill; switch off before touching torch parts (29 CFR 1910.254).',
  eyes: 'Eyes and skin: filter shade 8 at least, below 300 A (29 CFR 1910.133(a)(5)).',
  fume: 'Fume: head out of the plume, mechanical ventilation in small rooms (29 CFR 1910.252(c)(2)).',
  coatings: 'Coatings and alloys: take paint, zinc and oil off first; stainless gives off chromium(VI) (29 CFR 1910.1026).',
  noise: 'Noise: ear protection; 90 dBA is allowed for 8 h, 5 dB more halves the time (29 CFR 1910.95).',
  fire: 'Fire: clear 10.7 m (35 ft) around, fire watch at least 30 min after (29 CFR 1910.252(a)(2)(iii)).',
  'compressed-gas': 'Compressed gas: never blow air on a person; cleaning air below 2.1 bar (29 CFR 1910.242(b)).',
  'hot-metal': 'Hot metal: a cut edge burns long after it stops glowing, and the piece falls (common practice).',
  'closed-container': 'Closed containers: never cut one that was not made safe (29 CFR 1910.252(a)(3)).',
};
