import type { Diagnosis } from '../drill/diagnosis.ts';
import type { HandScript } from '../drill/hand-script-schema.ts';
import type { MeasureId } from '../drill/measure-ids.ts';
import type { RigChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';
import { ANSWER_FAULTS } from './answer-faults.ts';
import { HAND_FAULTS } from './hand-faults.ts';
import type { HandWindow } from './hand-window.ts';
import { referenceHand } from './reference-hand.ts';
import { TECHNIQUE_FAULTS } from './technique-faults.ts';

/** A hand with one fault: what it does, and, where the fault lies in the rig check or in the fault named, what was answered there. */
export interface FaultHand {
  script: HandScript;
  choices?: RigChoices;
  diagnosis?: Diagnosis | null;
}

/** One way of getting one thing wrong, and the measure that should name it. */
export interface HandFault {
  measure: MeasureId;
  /** Whether a drill leaves room for it; the drill's rubric must name the measure besides. */
  fits(drill: Drill): boolean;
  make(good: HandScript, drill: Drill, window: HandWindow): FaultHand;
}

/** Those of one technique first: they tell most about a drill. */
const FAULTS = { ...ANSWER_FAULTS, ...TECHNIQUE_FAULTS, ...HAND_FAULTS } satisfies Record<string, HandFault>;

export type FaultHandId = keyof typeof FAULTS;
export const FAULT_HAND_IDS = Object.keys(FAULTS) as FaultHandId[];

/** Hands that do one thing wrong and all else as the reference hand does, with the measure that should name it. */
export const FAULT_HANDS = Object.fromEntries(FAULT_HAND_IDS.map((id) => [id, FAULTS[id].measure])) as Record<
  FaultHandId,
  MeasureId
>;

/** The faults that can be shown on a drill: it leaves room for them, and its rubric names their measure. */
export function faultsOf(drill: Drill): FaultHandId[] {
  const measures = drill.rubric.measures.map(({ id }) => id);
  return FAULT_HAND_IDS.filter((id) => measures.includes(FAULTS[id].measure) && FAULTS[id].fits(drill));
}

/** The reference hand with one fault. */
export function faultHand(fault: FaultHandId, drill: Drill, window: HandWindow): FaultHand {
  const good = referenceHand(drill, window);
  const made = FAULTS[fault].make(good, drill, window);
  return { ...made, script: { ...made.script, name: `Hand with one fault: ${fault}` } };
}
