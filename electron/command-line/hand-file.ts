import {
  type Drill,
  FAULT_HAND_IDS,
  type FaultHand,
  faultHand,
  parseHandScript,
  referenceHand,
  type SpeedWindow,
} from '../../sim-core/index.ts';
import { CommandError } from './command-error.ts';
import { told } from './drill-file.ts';
import { readTextFile } from './read-file.ts';

/** The built-in hands by name: the reference hand, and those with one fault. */
export const BUILT_IN_HANDS = ['reference', ...FAULT_HAND_IDS] as const;

/** A hand by name or by file, with what it answered in the rig check or of the fault where that is its own. Throws CommandError where it is none. */
export function loadHand(word: string, drill: Drill, window: SpeedWindow): FaultHand {
  if (word === 'reference') return { script: referenceHand(drill, window) };
  const fault = FAULT_HAND_IDS.find((id) => id === word);
  if (fault) return faultHand(fault, drill, window);
  const result = parseHandScript(readTextFile(word));
  if (!result.ok) throw new CommandError(told(word, result.problems));
  return { script: result.value };
}
