import type { MeasureId } from '../drill/measure-ids.ts';
import { clamp, round } from '../math/elementary.ts';
import { longestUngroovedMm } from './groove-depth.ts';
import { MEASURES } from './measures.ts';
import type { MeasureResult, MeasureScore, ScoreReason } from './score.ts';
import type { MeasureInput } from './score-context.ts';
import { longestAsideMm, longestUncutMm, SEVERED_GAP_MM } from './severance.ts';

/** Depth over the depth asked for, taken along the line, up to which nothing was cut to speak of, and from which on handling is marked at its full worth. */
const NO_WORTH_DEPTH = 0.1;
const FULL_WORTH_DEPTH = 0.6;

/** A line that is drawn shows long before it is as deep as asked: both as shares of that. What a faint one lacks costs its own measures. */
const FAINT_LINE_SHARE = 1 / 6;

/**
 * What good handling is worth in this run, 0 to 1: as far as the line was travelled with the arc on, with a purpose, and
 * metal was cut on the way. It keeps a torch that hangs still and upright in the air, or is waved about, from earning marks
 * for being upright. Severance, the outcome, has its own rule.
 */
export function handlingWorth({ trace, drill }: Pick<MeasureInput, 'trace' | 'drill'>): number {
  const depthShare = drill.technique === 'mark' ? trace.depthShare / FAINT_LINE_SHARE : trace.depthShare;
  const depth = clamp((depthShare - NO_WORTH_DEPTH) / (FULL_WORTH_DEPTH - NO_WORTH_DEPTH), 0, 1);
  return trace.travelledShare * trace.purpose * depth;
}

/** Marks that do not hang on how far the cut came: severance has its own rule, and a fault can be found on a torch that does not cut. */
const UNSCALED: readonly MeasureId[] = ['severance', 'fault-finding'];

/** Longest stretch of a groove, mm, that may be missing in a run that passes. */
const GROOVE_GAP_MM = 4;

/** Longest stretch of the line, mm, that may have been cut aside of it in a run that passes: it stands on the part, or is missing from it. */
const ASIDE_GAP_MM = 2;

/**
 * Share of the way on which speed, sparks, lean, stand-off or line may be far off in a run that passes. Marks are a mean, and let one habit that is
 * wrong for most of the way be made up for by all that is right; no instructor would sign for it.
 */
const FAR_OFF_SHARE = 1 / 3;

/** What every measure that the rubric names says, in its order. */
export function judgeMeasures(input: MeasureInput): MeasureResult[] {
  return input.drill.rubric.measures.map(({ id }) => MEASURES[id](input));
}

/** Marks what the measures said, as the rubric weighs it. */
export function markMeasures(input: MeasureInput, results: readonly MeasureResult[]): MeasureScore[] {
  const worth = handlingWorth(input);
  return input.drill.rubric.measures.map(({ id, weight, mustReach }, at) => {
    const { mark, band, evidence } = results[at];
    const scaled = UNSCALED.includes(id) ? mark : mark * worth;
    return { id, mark: tenth(clamp(scaled, 0, 100)), weight, mustReach: mustReach ?? null, band, evidence };
  });
}

/** Weighted mean of the marks, 0 to 100. */
export function weighMarks(measures: readonly MeasureScore[]): number {
  let sum = 0;
  let weights = 0;
  for (const measure of measures) {
    sum += measure.mark * measure.weight;
    weights += measure.weight;
  }
  return weights > 0 ? tenth(sum / weights) : 0;
}

/**
 * Why the run does not pass; empty where it does. A plate that is not severed never passes, whatever the rubric says, nor does
 * a groove that is missing in part, nor a cut or a mark that goes aside of its line. Only where a fault is to be found, and the drill does not ask for the cut, may it be left.
 */
export function failReasons(input: MeasureInput, measures: readonly MeasureScore[], score: number): ScoreReason[] {
  const { drill, trace } = input;
  const { rubric, intended, faults } = drill;
  const reasons: ScoreReason[] = [];
  const severs = intended.grooveDepthMm === null && (faults.length === 0 || rubric.measures.some(({ id }) => id === 'severance'));
  if (intended.grooveDepthMm !== null) {
    const missingMm = longestUngroovedMm(input);
    if (missingMm > GROOVE_GAP_MM) reasons.push({ kind: 'not-grooved', missingMm });
  } else if (severs) {
    const uncutMm = longestUncutMm(trace);
    if (uncutMm > SEVERED_GAP_MM) reasons.push({ kind: 'not-severed', uncutMm });
  }
  // What is looked for where the torch went has also to lie by the line.
  if (severs || drill.technique === 'mark') {
    const asideMm = longestAsideMm(input);
    if (asideMm > ASIDE_GAP_MM) reasons.push({ kind: 'cut-aside', asideMm });
  }
  return [...reasons, ...marksReasons(measures, score, rubric.passMark)];
}

/** What was far off for too much of the way, however good the rest. */
export function farOffReasons(input: MeasureInput, results: readonly MeasureResult[]): ScoreReason[] {
  return input.drill.rubric.measures.flatMap(({ id }, at): ScoreReason[] => {
    const share = results[at].farOffShare ?? 0;
    return share > FAR_OFF_SHARE ? [{ kind: 'far-off', measureId: id, share }] : [];
  });
}

/** Why marks do not pass: the whole is below the pass mark, or a measure below what it must reach. */
export function marksReasons(measures: readonly MeasureScore[], score: number, passMark: number): ScoreReason[] {
  const reasons: ScoreReason[] = [];
  if (score < passMark) reasons.push({ kind: 'below-pass-mark', score, passMark });
  for (const { id, mark, mustReach } of measures) {
    if (mustReach !== null && mark < mustReach) reasons.push({ kind: 'measure-below', measureId: id, mark, mustReach });
  }
  return reasons;
}

function tenth(value: number): number {
  return round(value * 10) / 10;
}
