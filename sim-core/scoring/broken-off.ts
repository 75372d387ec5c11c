import { ARC_STATES } from '../run/types.ts';
import { leadsOut } from './lead-out.ts';
import { PHASE } from './phase.ts';
import type { MeasureInput } from './score-context.ts';

const OFF = ARC_STATES.indexOf('off');
const POST_FLOW = ARC_STATES.indexOf('post-flow');

/** A stretch of ticks without the arc, by index. */
export interface BrokenOff {
  from: number;
  to: number;
}

/**
 * Each time the trigger was let go on the way and the cut gone on with. None where the drill itself asks for it: at openings of
 * the plate, and between passes. Where the cut is led out it is a matter of the finish.
 */
export function brokenOff(input: MeasureInput): BrokenOff[] {
  const { trace, drill, samples } = input;
  if (drill.intended.passes > 1 || trace.binGap.includes(1) || trace.departIndex < 0) return [];
  const { arcState } = samples.columns;
  const found: BrokenOff[] = [];
  let last = trace.departIndex;
  for (let i = trace.departIndex + 1; i <= trace.lastCutIndex; i++) {
    if (trace.phase[i] !== PHASE.cut) continue;
    if (i > last + 1 && !leadsOut(input, last)) {
      let letGo = false;
      for (let k = last + 1; k < i && !letGo; k++) letGo = arcState[k] === OFF || arcState[k] === POST_FLOW;
      if (letGo) found.push({ from: last + 1, to: i - 1 });
    }
    last = i;
  }
  return found;
}
