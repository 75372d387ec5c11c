import { PIERCE_METHODS, pierceCoupon } from '../../sim-core/index.ts';
import { CONDITION_FLAGS, CONDITION_USAGE, readCondition } from './cut-condition.ts';
import { choice } from './read-flags.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const pierceVerb: Verb = {
  name: 'pierce',
  usage: `pierce ${CONDITION_USAGE} --method contact|rolling|stand-off [--rig 40|60|100] [--json]`,
  summary: 'Pierces a plate by one of the three motions: time, heat thrown back at the torch, crater, life spent.',
  flags: { ...CONDITION_FLAGS, method: { type: 'string' } },
  words: [],
  run(flags) {
    const result = pierceCoupon(readCondition(flags), choice(flags, 'method', PIERCE_METHODS));
    const text = rows([
      [result.brokeThrough ? 'Through after' : 'Not through in', `${shown(result.timeS)} s`],
      ['Blowback dose', `${shown(result.blowbackDose)} mJ`],
      ['Crater on top', `${shown(result.craterTopMm)} mm`],
      ['Life spent', `${shown(100 * result.spentLifeFraction)} % of a new set of parts`],
    ]);
    return { json: result, text };
  },
};
