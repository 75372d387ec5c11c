import { speedWindow } from '../../sim-core/index.ts';
import { CONDITION_FLAGS, CONDITION_USAGE, readCondition } from './cut-condition.ts';
import { rows, shown } from './shown.ts';
import type { Verb } from './verb.ts';

export const windowVerb: Verb = {
  name: 'window',
  usage: `window ${CONDITION_USAGE} [--rig 40|60|100] [--json]`,
  summary: 'Finds the travel speeds at which the cut is complete and the sparks trail at 15 to 30 deg.',
  flags: CONDITION_FLAGS,
  words: [],
  run(flags) {
    const { windowLowMmPerS, windowHighMmPerS, losingSpeedMmPerS, edgeDwellS, reason } = speedWindow(readCondition(flags));
    const figures = { windowLowMmPerS, windowHighMmPerS, losingSpeedMmPerS, edgeDwellS };
    const known = (value: number | null, unit: string): string => (value === null ? 'none' : `${shown(value)} ${unit}`);
    const text = rows([
      ['Window', windowLowMmPerS === null ? 'none' : `${shown(windowLowMmPerS)} to ${known(windowHighMmPerS, 'mm/s')}`],
      ['Cut lost from', known(losingSpeedMmPerS, 'mm/s')],
      ['Pause at the edge', known(edgeDwellS, 's')],
      ...(reason ? [['Reason', reason] as const] : []),
    ]);
    return { json: reason ? { ...figures, reason } : figures, text };
  },
};
