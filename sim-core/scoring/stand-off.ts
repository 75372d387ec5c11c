import { TICK_HZ } from '../run/types.ts';
import { judgeTicks, lossOutside } from './judge-ticks.ts';
import { PHASE } from './phase.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks reach 0 this far above the band, mm. Below it they reach 0 where the tip touches the plate. */
const ZERO_ABOVE_MM = 2;

/** From the height of a stand-off pierce a hand comes down while it moves off, s. */
const COMING_DOWN_S = 0.4;

/** Height of the tip over the plate while the arc burns on the line. While a pierce is blind it has a height of its own: `pierce`. */
export function markStandOff(input: MeasureInput): MeasureResult {
  const { trace, drill } = input;
  const { low, high } = drill.tolerances.standOffMm;
  const { standOffMm } = input.samples.columns;
  const { start } = drill;
  const from = start === 'stand-off-pierce' ? trace.departIndex + COMING_DOWN_S * TICK_HZ : 0;
  const { lostShare, evidence, farOffShare } = judgeTicks(input, {
    counts: (i) => (trace.phase[i] === PHASE.cut && i >= from) || (start === 'edge' && trace.phase[i] === PHASE.dwell),
    loss: (i) => lossOutside(standOffMm[i], low, high, 0, high + ZERO_ABOVE_MM),
    value: (i) => standOffMm[i],
    fault: (i) => (standOffMm[i] < low ? 'stand-off.too-low' : 'stand-off.too-high'),
    unit: 'mm',
    byDistance: 0.5,
  });
  return { mark: 100 * (1 - lostShare), band: { low, high, unit: 'mm' }, evidence, farOffShare };
}
