import type { Decision } from '../../electron/contract.ts';

/** What the host makes of two assessors' judgements; null wherever a figure does not exist. */
export interface ModerationFigures {
  runs: number;
  decisions: { cases: number; observed: number; expected: number; kappa: number | null } | null;
  scores: { targets: number; icc21: number | null } | null;
  scoreBias: { bias: number; lower: number | null; upper: number | null } | null;
  differences: readonly Difference[];
}

export interface Difference {
  runId: string;
  firstDecision: Decision;
  secondDecision: Decision;
  /** First minus second. */
  scoreDifference: number;
  measures: readonly { measureId: string; firstMark: number; secondMark: number }[];
}

/** With fewer runs than this the figures move widely by chance. */
export const FEW_RUNS = 10;

const two = new Intl.NumberFormat('en', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
const one = new Intl.NumberFormat('en', { minimumFractionDigits: 1, maximumFractionDigits: 1 });

/** A coefficient, with a real minus sign. */
export function coefficientWords(value: number): string {
  return two.format(value).replace('-', '−');
}

export function pointsWords(value: number): string {
  return one.format(value).replace('-', '−');
}

export function percentWords(share: number): string {
  return `${Math.round(share * 100)} %`;
}
