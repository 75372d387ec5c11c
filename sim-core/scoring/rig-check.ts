import { checkRig, type RigSeverity } from '../drill/rig-check.ts';
import { mostCostly } from './judge-ticks.ts';
import type { Evidence, FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Marks that one finding costs. What is unsafe costs all; one wrong setting more than half. */
const LOST: Record<RigSeverity, number> = { stops: 100, wrong: 60, note: 10 };
const FAULT: Record<RigSeverity, FaultId> = { stops: 'rig-check.unsafe', wrong: 'rig-check.wrong', note: 'rig-check.noted' };

/** How the rig, the place and the person were prepared before the arc: what `checkRig` finds in the trainee's choices. */
export function markRigCheck(input: MeasureInput): MeasureResult {
  const { drill, context, trace, samples } = input;
  const where = {
    fromTick: 1,
    toTick: trace.ticks < 1 ? 1 : trace.ticks,
    xMm: trace.ticks < 1 ? drill.path.start.xMm : samples.columns.xMm[0],
    yMm: trace.ticks < 1 ? drill.path.start.yMm : samples.columns.yMm[0],
    value: 0,
    unit: 'none',
  } as const;
  if (context.choices === null) {
    if (drill.rigCheck === 'done') return { mark: 100, band: null, evidence: [] };
    return { mark: 0, band: null, evidence: [{ ...where, fault: 'rig-check.not-done', lostMarks: 100 }] };
  }
  const found: Evidence[] = [];
  let lost = 0;
  for (const { id, severity } of checkRig(drill, context.choices)) {
    lost += LOST[severity];
    found.push({ ...where, fault: FAULT[severity], finding: id, lostMarks: LOST[severity] });
  }
  return { mark: lost >= 100 ? 0 : 100 - lost, band: null, evidence: mostCostly(found) };
}
