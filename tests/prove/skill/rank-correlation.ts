import { nextInteger, type RandomState } from '../../../sim-core/math/random.ts';

export interface RankCorrelation {
  rho: number;
  /** Of the bootstrap, 95 %: the percentiles of what comes out where the pairs are drawn again with replacement. */
  low: number;
  high: number;
}

const DRAWS = 1000;

/** Spearman's rank correlation with its interval. */
export function rankCorrelation(a: readonly number[], b: readonly number[], random: RandomState): RankCorrelation {
  const drawn = Array.from({ length: DRAWS }, () => {
    const picks = a.map(() => nextInteger(random) % a.length);
    return spearman(
      picks.map((at) => a[at]),
      picks.map((at) => b[at]),
    );
  }).sort((x, y) => x - y);
  return { rho: spearman(a, b), low: drawn[Math.floor(0.025 * DRAWS)], high: drawn[Math.ceil(0.975 * DRAWS) - 1] };
}

/** Spearman's rho (C. Spearman, "The proof and measurement of association between two things", 1904): Pearson's correlation of the ranks, equal values sharing the mean of theirs. */
export function spearman(a: readonly number[], b: readonly number[]): number {
  return pearson(ranks(a), ranks(b));
}

function ranks(values: readonly number[]): number[] {
  const order = values.map((value, at) => ({ value, at })).sort((x, y) => x.value - y.value);
  const found = new Array<number>(values.length);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && order[to].value === order[from].value) to++;
    for (let at = from; at < to; at++) found[order[at].at] = (from + to + 1) / 2;
    from = to;
  }
  return found;
}

function pearson(a: readonly number[], b: readonly number[]): number {
  const [meanA, meanB] = [mean(a), mean(b)];
  let [both, squaresA, squaresB] = [0, 0, 0];
  for (const [at, value] of a.entries()) {
    both += (value - meanA) * (b[at] - meanB);
    squaresA += (value - meanA) ** 2;
    squaresB += (b[at] - meanB) ** 2;
  }
  return both / Math.sqrt(squaresA * squaresB);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
