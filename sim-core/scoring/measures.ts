import type { MeasureId } from '../drill/measure-ids.ts';
import { markEdgeDwell } from './edge-dwell.ts';
import { markEndOfCut } from './end-of-cut.ts';
import { markLineFollowing } from './line-following.ts';
import type { MeasureResult } from './score.ts';
import type { MeasureInput } from './score-context.ts';
import { markSeverance } from './severance.ts';
import { markSparkAngle } from './spark-angle.ts';
import { markSquareness } from './squareness.ts';
import { markStandOff } from './stand-off.ts';
import { markSteadiness } from './steadiness.ts';
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
  pierce: markWithoutLoss,
  'groove-depth': markWithoutLoss,
  'groove-evenness': markWithoutLoss,
  'part-size': markWithoutLoss,
  'gap-crossing': markWithoutLoss,
  'cut-quality': markWithoutLoss,
  'torch-parts': markWithoutLoss,
  'rig-check': markWithoutLoss,
  'fault-finding': markWithoutLoss,
};

function markWithoutLoss(): MeasureResult {
  return { mark: 100, band: null, evidence: [] };
}
