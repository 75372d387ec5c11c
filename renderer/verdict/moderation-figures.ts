import type { Decision } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { numberText } from '../ui/number-text.ts';

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

/** The most that a coefficient short of full agreement is shown as. */
const NEARLY_ONE = 0.99;

/** A coefficient, with a real minus sign; never rounded up to full agreement. */
export function coefficientWords(value: number): string {
  return numberText(value < 1 ? Math.min(value, NEARLY_ONE) : value, 2);
}

/** Which of the two gave more marks, as far as the figure shown tells. */
export function biasWords(bias: number, first: string, second: string): string {
  const tenths = Math.round(Math.abs(bias) * 10);
  if (tenths === 0) return say('moderation.bias.none', { first, second });
  return say(bias > 0 ? 'moderation.bias.more' : 'moderation.bias.fewer', { first, second, bias: numberText(tenths / 10, 1) });
}

export function pointsWords(value: number): string {
  return numberText(value, 1);
}
