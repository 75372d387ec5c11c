import { gougeCoupon, MATERIAL_IDS } from '../../sim-core/index.ts';
import { CONDITION_FLAGS, readRigCurrent } from './cut-condition.ts';
import { choice, figure, optionalFigure } from './read-flags.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const gougeVerb: Verb = {
  name: 'gouge',
  usage:
    'gouge --current A --travel-angle DEG --speed MM_PER_S --stand-off MM [--passes N] [--material ...] [--thickness MM] [--rig 40|60|100] [--json]',
  summary: 'Gouges a plate (12 mm mild steel unless told otherwise), the torch pushed at an angle from the plate normal.',
  flags: {
    ...CONDITION_FLAGS,
    'travel-angle': { type: 'string' },
    speed: { type: 'string' },
    'stand-off': { type: 'string' },
    passes: { type: 'string' },
  },
  words: [],
  run(flags) {
    const result = gougeCoupon({
      material: flags.text('material') === undefined ? 'mild-steel' : choice(flags, 'material', MATERIAL_IDS),
      thicknessMm: optionalFigure(flags, 'thickness', 0.5, 60) ?? 12,
      ...readRigCurrent(flags),
      pushAngleDeg: figure(flags, 'travel-angle', -70, 70),
      speedMmPerS: figure(flags, 'speed', 0.5, 1000),
      standOffMm: figure(flags, 'stand-off', 0, 100),
      passes: optionalFigure(flags, 'passes', 1, 20) ?? 1,
    });
    const text = rows([
      ['Groove width', `${shown(result.grooveWidthMm)} mm`],
      ['Groove depth', `${shown(result.grooveDepthMm)} mm`],
      ['Evenness', shown(result.evenness)],
    ]);
    return { json: result, text };
  },
};
