/** How far two judges agree on categories, beyond what chance would give. */
export interface KappaResult {
  cases: number;
  /** Share of cases on which both said the same, 0 to 1. */
  observed: number;
  /** The same share as it would come out by chance from how often each judge uses each category, 0 to 1. */
  expected: number;
  /** (observed - expected) / (1 - expected), at most 1; null where both judges gave one and the same category throughout. */
  kappa: number | null;
}

/**
 * Cohen's kappa of two judges on the same cases, in the same order (J. Cohen, "A coefficient of agreement for nominal scales",
 * Educational and Psychological Measurement 20, 1960, 37-46).
 * @throws RangeError where there are no cases, or not equally many of both judges
 */
export function cohensKappa(first: readonly string[], second: readonly string[]): KappaResult {
  if (first.length === 0) throw new RangeError('Agreement needs at least one case that both judged.');
  if (first.length !== second.length) {
    throw new RangeError(
      `The first judge has ${first.length} cases and the second ${second.length}; they must judge the same ones.`,
    );
  }
  const cases = first.length;
  const counts = new Map<string, { first: number; second: number }>();
  const countOf = (category: string) => {
    const known = counts.get(category) ?? { first: 0, second: 0 };
    counts.set(category, known);
    return known;
  };
  let same = 0;
  for (const [index, category] of first.entries()) {
    if (category === second[index]) same++;
    countOf(category).first++;
    countOf(second[index]).second++;
  }
  const observed = same / cases;
  // Counted in whole cases first: a division each would round, and one category throughout must come out as exactly 1.
  let byChance = 0;
  for (const count of counts.values()) byChance += count.first * count.second;
  const expected = byChance / (cases * cases);
  return { cases, observed, expected, kappa: expected === 1 ? null : (observed - expected) / (1 - expected) };
}
