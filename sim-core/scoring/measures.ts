import type { MeasureId } from '../drill/measure-ids.ts';
import { markCutQuality } from './cut-quality.ts';
import { markEdgeDwell } from './edge-dwell.ts';
import { markEndOfCut } from './end-of-cut.ts';
import { markFaultFinding } from './fault-finding.ts';
import { markGapCrossing } from './gap-crossing.ts';
import { markGrooveDepth } from './groove-depth.ts';
import { markGrooveEvenness } from './groove-evenness.ts';
import { markLineFollowing } from './line-following.ts';
import { markPartSize } from './part-size.ts';
import { markPierce } from './pierce.ts';
import { markRigCheck } from './rig-check.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';
import { markSeverance } from './severance.ts';
import { markSparkAngle } from './spark-angle.ts';
import { markSquareness } from './squareness.ts';
import { markStandOff } from './stand-off.ts';
import { markSteadiness } from './steadiness.ts';
import { markTorchParts } from './torch-parts.ts';
import { markTravelSpeed } from './travel-speed.ts';

/** Every measure a rubric can name. */
export const MEASURES: Record<MeasureId, (input: MeasureInput) => MeasureResult> = {
  severance: markSeverance,
  'travel-speed': markTravelSpeed,
  'spark-angle': markSparkAngle,
  squareness: markSquareness,
  'stand-off': markStandOff,
  'line-following': markLineFollowing,
  'edge-dwell': markEdgeDwell,
  steadiness: markSteadiness,
  'end-of-cut': markEndOfCut,
  pierce: markPierce,
  'groove-depth': markGrooveDepth,
  'groove-evenness': markGrooveEvenness,
  'part-size': markPartSize,
  'gap-crossing': markGapCrossing,
  'cut-quality': markCutQuality,
  'torch-parts': markTorchParts,
  'rig-check': markRigCheck,
  'fault-finding': markFaultFinding,
};
