/** How far one judge's marks lie from another's. */
export interface BiasAndLimits {
  pairs: number;
  /** Mean of first - second. */
  bias: number;
  /** Standard deviation of the differences (n - 1); null with a single pair. */
  deviation: number | null;
  /** bias -+ 1.96 deviations: where 95 % of the differences lie if they are normally spread; null with a single pair. */
  lower: number | null;
  upper: number | null;
}

/**
 * Bias and limits of agreement of two judges' marks on the same runs (J. M. Bland and D. G. Altman, "Statistical methods for
 * assessing agreement between two methods of clinical measurement", The Lancet 327, 1986, 307-310).
 * @throws RangeError where there are no pairs
 */
export function biasAndLimits(pairs: readonly (readonly [first: number, second: number])[]): BiasAndLimits {
  if (pairs.length === 0) throw new RangeError('Limits of agreement need at least one run that both marked.');
  const differences = pairs.map(([first, second]) => first - second);
  const bias = differences.reduce((sum, difference) => sum + difference, 0) / pairs.length;
  if (pairs.length === 1) return { pairs: 1, bias, deviation: null, lower: null, upper: null };
  const squares = differences.reduce((sum, difference) => sum + (difference - bias) ** 2, 0);
  const deviation = Math.sqrt(squares / (pairs.length - 1));
  return { pairs: pairs.length, bias, deviation, lower: bias - 1.96 * deviation, upper: bias + 1.96 * deviation };
}
