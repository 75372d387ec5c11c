/** Mean squares of the two-way table and the six coefficients that Shrout and Fleiss make of them. */
export interface IntraclassCorrelation {
  targets: number;
  judges: number;
  /** Mean square between targets. */
  betweenTargets: number;
  /** Mean square within targets. */
  withinTargets: number;
  /** Mean square between judges. */
  betweenJudges: number;
  /** Mean square of what is left. */
  residual: number;
  /** One judge's mark; each target judged by other judges. */
  icc11: number | null;
  /** One judge's mark; the same judges, drawn from many: absolute agreement. The one that moderation looks at. */
  icc21: number | null;
  /** One judge's mark; just these judges: consistency, whatever their bias. */
  icc31: number | null;
  /** The same three for the mean of all judges' marks. */
  icc1k: number | null;
  icc2k: number | null;
  icc3k: number | null;
}

/**
 * Intraclass correlations of a complete table, `marks[target][judge]` (P. E. Shrout and J. L. Fleiss, "Intraclass correlations:
 * uses in assessing rater reliability", Psychological Bulletin 86, 1979, 420-428). A coefficient is null where it has no value
 * because its variances are zero, as when every mark is the same.
 * @throws RangeError where there are fewer than two targets or judges, the table has a gap, or a mark is not finite
 */
export function intraclassCorrelation(marks: readonly (readonly number[])[]): IntraclassCorrelation {
  const targets = marks.length;
  const judges = marks[0]?.length ?? 0;
  if (targets < 2 || judges < 2) throw new RangeError('An intraclass correlation needs at least two runs and two judges.');
  for (const [index, row] of marks.entries()) {
    if (row.length !== judges) throw new RangeError(`Run ${index + 1} has ${row.length} marks and the first has ${judges}.`);
    if (!row.every(Number.isFinite)) throw new RangeError(`Run ${index + 1} has a mark that is no number.`);
  }
  const n = targets;
  const k = judges;
  const grandMean = mean(marks.map(mean));
  const judgeMeans = Array.from({ length: k }, (_, judge) => mean(marks.map((row) => row[judge])));
  let targetSquares = 0;
  let withinSquares = 0;
  let residualSquares = 0;
  for (const row of marks) {
    const targetMean = mean(row);
    targetSquares += k * (targetMean - grandMean) ** 2;
    for (const [judge, mark] of row.entries()) {
      withinSquares += (mark - targetMean) ** 2;
      // Summed directly and not as a difference of the other sums, which would leave rounding where there is no residual.
      residualSquares += (mark - targetMean - judgeMeans[judge] + grandMean) ** 2;
    }
  }
  const judgeSquares = judgeMeans.reduce((sum, judgeMean) => sum + n * (judgeMean - grandMean) ** 2, 0);
  const b = targetSquares / (n - 1);
  const w = withinSquares / (n * (k - 1));
  const j = judgeSquares / (k - 1);
  const e = residualSquares / ((n - 1) * (k - 1));
  return {
    targets,
    judges,
    betweenTargets: b,
    withinTargets: w,
    betweenJudges: j,
    residual: e,
    icc11: ratio(b - w, b + (k - 1) * w),
    icc21: ratio(b - e, b + (k - 1) * e + (k * (j - e)) / n),
    icc31: ratio(b - e, b + (k - 1) * e),
    icc1k: ratio(b - w, b),
    icc2k: ratio(b - e, b + (j - e) / n),
    icc3k: ratio(b - e, b),
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function ratio(above: number, below: number): number | null {
  return below === 0 ? null : above / below;
}
