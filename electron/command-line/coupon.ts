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
    const { energy, quality } = result;
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
      ['Squareness u', estimate(quality.u_mm, 'mm', quality.uRange)],
      ['Profile height Rz5', estimate(quality.rz5_um, 'um', quality.rz5Range)],
      ['Dross', quality.dross.kind === 'none' ? 'none' : `${quality.dross.kind}, ${shown(quality.dross.mm)} mm`],
      ['Heat-affected width', quality.heatAffectedMm === null ? 'none' : `${shown(quality.heatAffectedMm)} mm`],
      ['Energy delivered', `${shown(energy.deliveredJ)} J`],
      ['  in thrown metal', `${shown(energy.removedJ)} J`],
      ['  left in the plate', `${shown(energy.conductedJ)} J`],
      ['  through the kerf', `${shown(energy.throughJ)} J`],
    ]);
    return { json: result, text };
  },
};

/** A figure of cut quality with the ISO 9013 range it falls in. */
function estimate(value: number | null, unit: string, range: number | null): string {
  if (value === null) return 'no face to measure';
  return `about ${shown(value)} ${unit} (ISO 9013 ${range === null ? 'beyond the last range' : `range ${range}`})`;
}
