import type { ReactNode } from 'react';
import type { MeasureId } from '../../sim-core/index.ts';
import * as cut from './PicturesOfACut.tsx';
import * as work from './PicturesOfWork.tsx';

const PICTURES: Record<MeasureId, ReactNode> = {
  severance: cut.severance,
  'travel-speed': cut.travelSpeed,
  'spark-angle': cut.sparkAngle,
  squareness: cut.squareness,
  'stand-off': cut.standOff,
  'line-following': cut.lineFollowing,
  'edge-dwell': cut.edgeDwell,
  steadiness: cut.steadiness,
  'end-of-cut': cut.endOfCut,
  pierce: work.pierce,
  'groove-depth': work.grooveDepth,
  'groove-evenness': work.grooveEvenness,
  'part-size': work.partSize,
  'gap-crossing': work.gapCrossing,
  'cut-quality': work.cutQuality,
  'torch-parts': work.torchParts,
  'rig-check': work.rigCheck,
  'fault-finding': work.faultFinding,
};

/** What a measure looks at: right beside wrong. */
export function MeasurePicture({ id }: { id: MeasureId }) {
  return PICTURES[id];
}
