import { type Diagnosis, REMEDY_FOR } from '../drill/diagnosis.ts';
import { type RigChoices, rightChoices } from '../drill/rig-choices.ts';
import type { Drill } from '../drill/schema.ts';

/** What a person settled beside the hand's work: the rig check before it, the fault named after it. */
export interface RigAnswers {
  /** null where the rig stood ready. */
  choices: RigChoices | null;
  /** null where nothing was named. */
  diagnosis: Diagnosis | null;
}

/** The right answers to a drill. */
export function rightAnswers(drill: Drill): RigAnswers {
  const fault = drill.faults.at(0);
  return { choices: rightChoices(drill), diagnosis: fault ? { cause: fault, remedy: REMEDY_FOR[fault] } : null };
}
