import { type CutCondition, MATERIAL_IDS, RIGS, type RigId, smallestRigFor } from '../../sim-core/index.ts';
import { CommandError } from './command-error.ts';
import { choice, figure } from './read-flags.ts';
import type { Flags } from './verb.ts';

/** Flags that say which metal is cut with which rig. */
export const CONDITION_FLAGS = {
  material: { type: 'string' },
  thickness: { type: 'string' },
  current: { type: 'string' },
  rig: { type: 'string' },
} as const;

export const CONDITION_USAGE = '--material mild-steel|stainless-steel|aluminium --thickness MM --current A';

const RIG_IDS = Object.keys(RIGS) as RigId[];

/** Metal and rig of a command; without --rig the smallest rig whose dial reaches the current. */
export function readCondition(flags: Flags): CutCondition {
  const material = choice(flags, 'material', MATERIAL_IDS);
  const thicknessMm = figure(flags, 'thickness', 0.5, 60);
  return { material, thicknessMm, ...readRigCurrent(flags) };
}

/** Current and rig of a command. */
export function readRigCurrent(flags: Flags): Pick<CutCondition, 'currentA' | 'rig'> {
  const currentA = figure(flags, 'current', 1, 1000);
  if (flags.text('rig') === undefined) return { currentA, rig: smallestRigFor(currentA).id };
  const rig = RIGS[choice(flags, 'rig', RIG_IDS)];
  if (currentA < rig.dialMinA || currentA > rig.dialMaxA) {
    throw new CommandError(
      `The dial of rig ${rig.id} goes from ${rig.dialMinA} to ${rig.dialMaxA} A; ${currentA} A is not on it.`,
    );
  }
  return { currentA, rig: rig.id };
}
