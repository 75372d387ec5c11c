import { MATERIAL_IDS, piercingThicknessMm, severingThicknessMm } from '../../sim-core/index.ts';
import { CONDITION_FLAGS, readRigCurrent } from './cut-condition.ts';
import { choice } from './read-flags.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

const { material, current, rig } = CONDITION_FLAGS;

export const limitsVerb: Verb = {
  name: 'limits',
  usage: 'limits --material mild-steel|stainless-steel|aluminium --current A [--rig 40|60|100] [--json]',
  summary: 'Finds the greatest thickness that a rig severs from an edge and that it pierces.',
  flags: { material, current, rig },
  words: [],
  run(flags) {
    const metal = choice(flags, 'material', MATERIAL_IDS);
    const { currentA, rig: rigId } = readRigCurrent(flags);
    const severingMm = severingThicknessMm(metal, currentA, rigId);
    const piercingMm = piercingThicknessMm(metal, currentA, rigId);
    const text = rows([
      ['Severs', `${shown(severingMm)} mm`],
      ['Pierces', `${shown(piercingMm)} mm`],
    ]);
    return { json: { severingMm, piercingMm }, text };
  },
};
