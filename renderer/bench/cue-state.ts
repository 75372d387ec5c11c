import { ARC_STATES, type DrillTolerances, type Sample, type SpeedWindow } from '../../sim-core/index.ts';
import { type LeanTarget, leanBetweenDeg } from './lean-target.ts';

export type CueVerdict = 'low' | 'ok' | 'high' | 'none' | 'top' | 'still';

/** What the cue panel says about the latest sample. */
export interface CueState {
  speed: CueVerdict;
  spark: CueVerdict;
  standOff: CueVerdict;
  lean: CueVerdict;
  /** Lean of the handle from upright, deg. */
  leanDeg: number;
}

/** How the handle is to lean where the torch is now, and how far from that still counts as held, degrees. */
export interface LeanAim extends LeanTarget {
  roomDeg: number;
}

const TRANSFERRED = ARC_STATES.indexOf('transferred');
const STILL_MM_PER_S = 0.5;

function inside(value: number, low: number | null, high: number | null): CueVerdict {
  if (low !== null && value < low) return 'low';
  if (high !== null && value > high) return 'high';
  return 'ok';
}

/** Lean from upright out of its two parts. */
export function wholeLeanDeg(leanXDeg: number, leanYDeg: number): number {
  const x = Math.tan((leanXDeg * Math.PI) / 180);
  const y = Math.tan((leanYDeg * Math.PI) / 180);
  return (Math.atan(Math.hypot(x, y)) * 180) / Math.PI;
}

export function cueState(
  sample: Readonly<Sample>,
  leanXDeg: number,
  leanYDeg: number,
  tolerances: DrillTolerances,
  window: Pick<SpeedWindow, 'windowLowMmPerS' | 'windowHighMmPerS'>,
  aim: LeanAim = { leanXDeg: 0, leanYDeg: 0, roomDeg: tolerances.leanDeg },
): CueState {
  const arc = sample.arcState === TRANSFERRED;
  const leanDeg = wholeLeanDeg(leanXDeg, leanYDeg);
  const moving = sample.speedMmPerS >= STILL_MM_PER_S;
  const spark = Number.isFinite(sample.sparkAngleDeg);
  const top = arc && sample.topMm3PerS > sample.underMm3PerS && sample.topMm3PerS > 0;
  return {
    speed: moving ? inside(sample.speedMmPerS, window.windowLowMmPerS, window.windowHighMmPerS) : 'still',
    spark: top
      ? 'top'
      : spark
        ? inside(sample.sparkAngleDeg, tolerances.sparkAngleDeg.low, tolerances.sparkAngleDeg.high)
        : 'none',
    standOff: inside(sample.standOffMm, tolerances.standOffMm.low, tolerances.standOffMm.high),
    lean: leanBetweenDeg({ leanXDeg, leanYDeg }, aim) > aim.roomDeg ? 'high' : 'ok',
    leanDeg,
  };
}
