import { runCoupon } from '../../sim-core/index.ts';
import { CONDITION_FLAGS, CONDITION_USAGE, readCondition } from './cut-condition.ts';
import { figure, optionalFigure } from './read-flags.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const couponVerb: Verb = {
  name: 'coupon',
  usage: `coupon ${CONDITION_USAGE} --speed MM_PER_S [--stand-off MM] [--travel-angle DEG] [--work-angle DEG] [--rig 40|60|100] [--json]`,
  summary: 'Cuts a test coupon straight across at constant speed and gives the steady figures.',
  flags: {
    ...CONDITION_FLAGS,
    speed: { type: 'string' },
    'stand-off': { type: 'string' },
    'travel-angle': { type: 'string' },
    'work-angle': { type: 'string' },
  },
  words: [],
  run(flags) {
    const result = runCoupon({
      ...readCondition(flags),
      speedMmPerS: figure(flags, 'speed', 0.1, 1000),
      standOffMm: optionalFigure(flags, 'stand-off', 0, 100),
      travelAngleDeg: optionalFigure(flags, 'travel-angle', -70, 70),
      workAngleDeg: optionalFigure(flags, 'work-angle', -70, 70),
    });
    const { energy } = result;
    const text = rows([
      [
        'Spark angle',
        result.sparkAngleDeg === null ? `none (metal thrown: ${result.sparkSide})` : `${shown(result.sparkAngleDeg)} deg`,
      ],
      ['Metal leaves', result.sparkSide],
      ['Severed', `${shown(100 * result.severedFraction)} %`],
      ['Kerf top, bottom', `${shown(result.topKerfMm)}, ${shown(result.bottomKerfMm)} mm`],
      ['Drag', `${shown(result.dragMm)} mm`],
      ['Power through', `${shown(100 * result.throughPowerFraction)} %`],
      ['Pause at the edge', result.edgeDwellS === null ? 'never through' : `${shown(result.edgeDwellS)} s`],
      ['Arc voltage', result.arcVoltageV === null ? 'no arc' : `${shown(result.arcVoltageV)} V`],
      ['Energy delivered', `${shown(energy.deliveredJ)} J`],
      ['  in thrown metal', `${shown(energy.removedJ)} J`],
      ['  left in the plate', `${shown(energy.conductedJ)} J`],
      ['  through the kerf', `${shown(energy.throughJ)} J`],
    ]);
    return { json: result, text };
  },
};
