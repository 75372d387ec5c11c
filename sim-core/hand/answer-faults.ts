import { REMEDY_FOR, REMEDY_IDS, RIG_FAULT_IDS } from '../drill/diagnosis.ts';
import { type RigChoices, rightChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';
import type { HandFault } from './fault-hands.ts';

/** How far off a wrongly set guide stands, mm: about what a torch front is taken for by eye. */
const GUIDE_OFF_MM = 3;

/** The guide set on one side of where it should be. */
function guideOff(byMm: number): HandFault['make'] {
  return (script, drill) => {
    const right = rightChoices(drill);
    return { script, choices: { ...right, guideOffsetMm: (right.guideOffsetMm ?? 0) + byMm } };
  };
}

function chosen(change: (right: RigChoices, drill: Drill) => Partial<RigChoices>): HandFault['make'] {
  return (script, drill) => {
    const right = rightChoices(drill);
    return { script, choices: { ...right, ...change(right, drill) } };
  };
}

const byTrainee = (drill: Drill): boolean => drill.rigCheck === 'by-trainee';
const isFaulty = (drill: Drill): boolean => drill.faults.length > 0;
const isGuided = (drill: Drill): boolean => drill.guide.kind !== 'freehand';

/** Faults that lie not in the hand but in what was set before the arc, or named after it. */
export const ANSWER_FAULTS = {
  'names-nothing': { measure: 'fault-finding', fits: isFaulty, make: (script) => ({ script, diagnosis: null }) },
  'names-wrong-cause': {
    measure: 'fault-finding',
    fits: isFaulty,
    make: (script, drill) => {
      const cause = RIG_FAULT_IDS.find((id) => id !== drill.faults[0]) ?? RIG_FAULT_IDS[0];
      return { script, diagnosis: { cause, remedy: REMEDY_FOR[cause] } };
    },
  },
  'names-wrong-remedy': {
    measure: 'fault-finding',
    fits: isFaulty,
    make: (script, drill) => {
      const cause = drill.faults[0];
      const remedy = REMEDY_IDS.find((id) => id !== REMEDY_FOR[cause]) ?? REMEDY_IDS[0];
      return { script, diagnosis: { cause, remedy } };
    },
  },
  'trap-left-full': { measure: 'rig-check', fits: byTrainee, make: chosen(() => ({ waterTrapDrained: false })) },
  'clamp-on-coating': {
    measure: 'rig-check',
    fits: (drill) => byTrainee(drill) && drill.rig.clampSpots.some(({ surface }) => surface !== 'bare'),
    make: chosen((right, drill) => ({
      clampSpot: drill.rig.clampSpots.find(({ surface }) => surface !== 'bare')?.id ?? right.clampSpot,
    })),
  },
  'clamp-on-drop': {
    measure: 'rig-check',
    fits: (drill) => byTrainee(drill) && drill.rig.clampSpots.some(({ onDrop }) => onDrop),
    make: chosen((right, drill) => ({ clampSpot: drill.rig.clampSpots.find(({ onDrop }) => onDrop)?.id ?? right.clampSpot })),
  },
  'low-pressure': { measure: 'rig-check', fits: byTrainee, make: chosen(() => ({ supplyBar: 3.6 })) },
  'no-shade': {
    measure: 'rig-check',
    fits: byTrainee,
    make: chosen(({ protection }) => ({ protection: { ...protection, shade: null } })),
  },
  'guide-too-near': { measure: 'part-size', fits: isGuided, make: guideOff(-GUIDE_OFF_MM) },
  'guide-too-far': { measure: 'part-size', fits: isGuided, make: guideOff(GUIDE_OFF_MM) },
  'mode-for-plain-plate': {
    measure: 'gap-crossing',
    fits: (drill) => drill.rig.mode === 'gaps',
    make: chosen(() => ({ mode: 'cut' })),
  },
} as const satisfies Record<string, HandFault>;
