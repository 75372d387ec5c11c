import type { MeasureId } from '../drill/measure-ids.ts';

/** Units of the figures in evidence and bands; 'none' where there is no figure to show. */
export type FigureUnit = 'mm' | 'mm/s' | 'deg' | 's' | 'share' | 'none';

/**
 * What the hand did wrong, as an id; the words stand with the page and the command line.
 * Each belongs to the measure before the dot.
 */
export const FAULT_IDS = [
  'severance.uncut',
  'severance.not-reached',
  'travel-speed.too-fast',
  'travel-speed.too-slow',
  'spark-angle.too-flat',
  'spark-angle.too-steep',
  'spark-angle.none-below',
  'squareness.leaning',
  'stand-off.too-high',
  'stand-off.too-low',
  'line-following.off-line',
  'edge-dwell.left-early',
  'edge-dwell.left-late',
  'steadiness.uneven',
  'steadiness.halted',
  'end-of-cut.stopped-short',
  'end-of-cut.tab-left',
  'end-of-cut.arc-left-on',
  'end-of-cut.overrun',
  'pierce.not-through',
  'pierce.left-blind',
  'pierce.left-late',
  'pierce.blowback',
  'pierce.too-high',
  'pierce.too-low',
  'pierce.too-upright',
  'pierce.leaning',
  'groove-depth.shallow',
  'groove-depth.deep',
  'groove-depth.narrow',
  'groove-depth.wide',
  'groove-evenness.uneven',
  'part-size.cut-away',
  'part-size.left-on',
  'gap-crossing.arc-lost',
  'gap-crossing.slow',
  'gap-crossing.struck-often',
  'cut-quality.slanted',
  'cut-quality.dross',
  'cut-quality.rough',
  'torch-parts.worn',
  'rig-check.not-done',
  'rig-check.unsafe',
  'rig-check.wrong',
  'rig-check.noted',
  'fault-finding.not-tried',
  'fault-finding.not-named',
  'fault-finding.wrong-cause',
  'fault-finding.wrong-remedy',
] as const;
export type FaultId = (typeof FAULT_IDS)[number];

/** One stretch of the run where a measure lost marks. */
export interface Evidence {
  /** First and last tick of the stretch, counted from 1. */
  fromTick: number;
  toTick: number;
  /** Where the tip was at its worst moment, or where metal was left uncut, plate frame. */
  xMm: number;
  yMm: number;
  /** The figure at that moment. */
  value: number;
  unit: FigureUnit;
  fault: FaultId;
  /** Marks of this measure, 0 to 100, that this stretch cost. */
  lostMarks: number;
  /** Of the rig check: id of the finding, as `checkRig` gives it. */
  finding?: string;
}

/** What counts as right for a measure in this run; a missing end is open. */
export interface Band {
  low: number | null;
  high: number | null;
  unit: FigureUnit;
}

export interface MeasureScore {
  id: MeasureId;
  /** 0 to 100. */
  mark: number;
  weight: number;
  mustReach: number | null;
  band: Band | null;
  /** Most costly first; at most EVIDENCE_LIMIT. */
  evidence: Evidence[];
}

/** Why a run did not pass. */
export type ScoreReason =
  | { kind: 'not-severed'; uncutMm: number }
  | { kind: 'not-grooved'; missingMm: number }
  | { kind: 'cut-aside'; asideMm: number }
  | { kind: 'below-pass-mark'; score: number; passMark: number }
  | { kind: 'measure-below'; measureId: MeasureId; mark: number; mustReach: number }
  | { kind: 'far-off'; measureId: MeasureId; share: number };

/** The one thing to change next: a measure, the stretch that shows it best, and what went wrong there. */
export interface Advice {
  measureId: MeasureId;
  /** Index into that measure's evidence; null where the run has no stretch to point at. */
  evidenceIndex: number | null;
  key: FaultId;
}

export interface Score {
  /** 0 to 100, weighted by the rubric, to a tenth. */
  score: number;
  passed: boolean;
  reasons: ScoreReason[];
  /** In the order of the rubric. */
  measures: MeasureScore[];
  firstThingToChange: Advice | null;
}

/** What a measure says before the rubric weighs it. */
export interface MeasureResult {
  mark: number;
  band: Band | null;
  evidence: Evidence[];
  /** Of what is judged all along the line: share of the way on which it was far off, 0 to 1. */
  farOffShare?: number;
}
