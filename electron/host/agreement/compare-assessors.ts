import { type BiasAndLimits, biasAndLimits } from './bias-and-limits.ts';
import { cohensKappa, type KappaResult } from './cohens-kappa.ts';
import { type IntraclassCorrelation, intraclassCorrelation } from './intraclass-correlation.ts';

export type Decision = 'competent' | 'not-yet-competent';

/** What one assessor said of one run, without having seen what the other said. */
export interface Judgement {
  runId: string;
  decision: Decision;
  /** Score after their overruled marks, 0 to 100. */
  score: number;
  /** Marks after their overruling, 0 to 100. */
  marks: readonly { measureId: string; mark: number }[];
}

/** A run on which the two came to different things. */
export interface Difference {
  runId: string;
  firstDecision: Decision;
  secondDecision: Decision;
  /** First score - second score. */
  scoreDifference: number;
  /** Measures that the two marked differently, the widest apart first. */
  measures: { measureId: string; firstMark: number; secondMark: number }[];
}

export interface AssessorComparison {
  /** Runs that both judged; runs judged by one alone are left out of every figure. */
  runs: number;
  onlyFirst: number;
  onlySecond: number;
  /** Of the decisions; null where no run was judged by both. */
  decisions: KappaResult | null;
  /** Of the scores; null with fewer than two runs. `icc21` is absolute agreement. */
  scores: IntraclassCorrelation | null;
  /** First - second score; null where no run was judged by both. */
  scoreBias: BiasAndLimits | null;
  /** Differing decisions first, then by how far the scores lie apart. */
  differences: Difference[];
}

/**
 * Moderation: two assessors' judgements of the same set, each made blind.
 * @throws RangeError where an assessor judged a run twice
 */
export function compareAssessors(first: readonly Judgement[], second: readonly Judgement[]): AssessorComparison {
  const firstByRun = byRun(first, 'first');
  const secondByRun = byRun(second, 'second');
  const both = first.flatMap((one): [Judgement, Judgement][] => {
    const other = secondByRun.get(one.runId);
    return other ? [[one, other]] : [];
  });
  const scores = both.map(([one, other]): [number, number] => [one.score, other.score]);
  return {
    runs: both.length,
    onlyFirst: firstByRun.size - both.length,
    onlySecond: secondByRun.size - both.length,
    decisions:
      both.length === 0
        ? null
        : cohensKappa(
            both.map(([one]) => one.decision),
            both.map(([, other]) => other.decision),
          ),
    scores: both.length < 2 ? null : intraclassCorrelation(scores),
    scoreBias: both.length === 0 ? null : biasAndLimits(scores),
    differences: both.flatMap(differenceOf).sort(widestFirst),
  };
}

function byRun(judgements: readonly Judgement[], who: string): Map<string, Judgement> {
  const known = new Map<string, Judgement>();
  for (const judgement of judgements) {
    if (known.has(judgement.runId)) throw new RangeError(`The ${who} assessor judged the run ${judgement.runId} twice.`);
    known.set(judgement.runId, judgement);
  }
  return known;
}

function differenceOf([one, other]: [Judgement, Judgement]): Difference[] {
  const otherMarks = new Map(other.marks.map(({ measureId, mark }) => [measureId, mark]));
  const measures = one.marks
    .flatMap(({ measureId, mark }) => {
      const secondMark = otherMarks.get(measureId);
      return secondMark === undefined || secondMark === mark ? [] : [{ measureId, firstMark: mark, secondMark }];
    })
    .sort((a, b) => Math.abs(b.firstMark - b.secondMark) - Math.abs(a.firstMark - a.secondMark));
  if (one.decision === other.decision && one.score === other.score && measures.length === 0) return [];
  return [
    {
      runId: one.runId,
      firstDecision: one.decision,
      secondDecision: other.decision,
      scoreDifference: one.score - other.score,
      measures,
    },
  ];
}

function widestFirst(a: Difference, b: Difference): number {
  const split = (difference: Difference) => Number(difference.firstDecision !== difference.secondDecision);
  return split(b) - split(a) || Math.abs(b.scoreDifference) - Math.abs(a.scoreDifference);
}
