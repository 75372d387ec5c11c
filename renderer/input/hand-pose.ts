import type { HandPose, PointMm } from '../../sim-core/index.ts';

/** How far the hand may go: a margin around the plate, so that a cut can begin and end off its edge. */
export interface HandLimits {
  xLowMm: number;
  xHighMm: number;
  yLowMm: number;
  yHighMm: number;
  heightHighMm: number;
  leanHighDeg: number;
  /** Where a guide lets the torch be that the hand would hold at a place; null where it is held freehand. */
  hold: ((xMm: number, yMm: number) => PointMm) | null;
}

const MARGIN_MM = 30;
const HEIGHT_HIGH_MM = 40;
const LEAN_HIGH_DEG = 60;

export function limitsFor(lengthMm: number, widthMm: number, hold: HandLimits['hold'] = null): HandLimits {
  return {
    xLowMm: -MARGIN_MM,
    xHighMm: lengthMm + MARGIN_MM,
    yLowMm: -MARGIN_MM,
    yHighMm: widthMm + MARGIN_MM,
    heightHighMm: HEIGHT_HIGH_MM,
    leanHighDeg: LEAN_HIGH_DEG,
    hold,
  };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

export function clampPose(pose: HandPose, limits: HandLimits): HandPose {
  const xMm = clamp(pose.xMm, limits.xLowMm, limits.xHighMm);
  const yMm = clamp(pose.yMm, limits.yLowMm, limits.yHighMm);
  return {
    ...(limits.hold ? limits.hold(xMm, yMm) : { xMm, yMm }),
    heightMm: clamp(pose.heightMm, 0, limits.heightHighMm),
    leanXDeg: clamp(pose.leanXDeg, -limits.leanHighDeg, limits.leanHighDeg),
    leanYDeg: clamp(pose.leanYDeg, -limits.leanHighDeg, limits.leanHighDeg),
    trigger: pose.trigger,
  };
}
