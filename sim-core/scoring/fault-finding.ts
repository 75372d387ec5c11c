import { REMEDY_FOR } from '../drill/diagnosis.ts';
import { ARC_STATES, TICK_HZ } from '../run/types.ts';
import type { FaultId, MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';

/** Who names a fault must have seen the torch at work, be it for a blink: the pilot or the arc alight so long, s. */
const TRIED_S = 0.3;

/** Marks for the right cause; the rest is for its remedy. */
const CAUSE_MARKS = 60;

const OFF = ARC_STATES.indexOf('off');
const POST_FLOW = ARC_STATES.indexOf('post-flow');

/** What the trainee says is wrong with the rig and what is to be done, against the fault that was put in. */
export function markFaultFinding(input: MeasureInput): MeasureResult {
  const { drill, context, trace, samples } = input;
  const { arcState, xMm, yMm } = samples.columns;
  let heldTicks = 0;
  let first = -1;
  let last = 0;
  for (let i = 0; i < trace.ticks; i++) {
    if (arcState[i] === OFF || arcState[i] === POST_FLOW) continue;
    heldTicks++;
    if (first < 0) first = i;
    last = i;
  }
  const from = first < 0 ? 0 : first;
  const place = trace.ticks < 1 ? drill.path.start : { xMm: xMm[from], yMm: yMm[from] };
  const told = (mark: number, fault: FaultId): MeasureResult => ({
    mark,
    band: null,
    evidence: [{ fromTick: from + 1, toTick: last + 1, ...place, value: 0, unit: 'none', fault, lostMarks: 100 - mark }],
  });
  if (heldTicks < TRIED_S * TICK_HZ) return told(0, 'fault-finding.not-tried');
  const { diagnosis } = context;
  const cause = drill.faults[0];
  if (cause === undefined)
    return diagnosis === null ? { mark: 100, band: null, evidence: [] } : told(0, 'fault-finding.wrong-cause');
  if (diagnosis === null) return told(0, 'fault-finding.not-named');
  if (diagnosis.cause !== cause) return told(0, 'fault-finding.wrong-cause');
  if (diagnosis.remedy !== REMEDY_FOR[cause]) return told(CAUSE_MARKS, 'fault-finding.wrong-remedy');
  return { mark: 100, band: null, evidence: [] };
}
