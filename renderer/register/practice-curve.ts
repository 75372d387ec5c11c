/** How scores come along with practice: from a first score towards a level, by a law with one rate. */
export interface PracticeCurve {
  law: 'exponential' | 'power';
  /** What it levels off at, marks: 0 to 100. */
  level: number;
  /** What the first run lacks of that, marks; never below 0. */
  lacking: number;
  /** Exponential: share of what is lacking that goes with each run, as the exponent per run. Power: the exponent of the run's number. */
  rate: number;
  /** Root mean square of the scores about the curve, marks. */
  scatter: number;
}

/** Fewer runs than these tell a curve from chance badly. */
export const LEAST_RUNS_OF_CURVE = 8;

/** Rates that are looked through, in equal ratios: from a curve that has hardly begun to one that is over after a run. */
const SLOWEST = 0.005;
const FASTEST = 3;
const RATES = 80;
/** Each halving narrows the best of them down further. */
const HALVINGS = 30;

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Best score there is. */
const MOST = 100;

/**
 * The curve of practice that fits best, by least squares; null with too few runs. Both the power law (A. Newell and P. S.
 * Rosenbloom, "Mechanisms of skill acquisition and the law of practice", 1981) and the exponential (A. Heathcote, S. Brown and
 * D. J. K. Mewhort, "The power law repealed", Psychonomic Bulletin & Review 7, 2000, 185-207) are tried: of one person it is more
 * often the latter. For each rate level and lack follow in closed form, so that only the rate has to be looked for.
 * @param scores of all runs, oldest first, 0 to 100
 */
export function fitPracticeCurve(scores: readonly number[]): PracticeCurve | null {
  if (scores.length < LEAST_RUNS_OF_CURVE) return null;
  const [exponential, power] = (['exponential', 'power'] as const).map((law) => bestOf(law, scores));
  return power.scatter < exponential.scatter ? power : exponential;
}

/** The curve's score at a run, counted from 1. */
export function practiceScore(curve: Pick<PracticeCurve, 'law' | 'level' | 'lacking' | 'rate'>, run: number): number {
  return curve.level - curve.lacking * leftOf(curve.law, curve.rate, run);
}

/** Share of what the first run lacked that is still lacking at a run. */
function leftOf(law: PracticeCurve['law'], rate: number, run: number): number {
  return law === 'exponential' ? Math.exp(-rate * (run - 1)) : run ** -rate;
}

function bestOf(law: PracticeCurve['law'], scores: readonly number[]): PracticeCurve {
  const step = Math.log(FASTEST / SLOWEST) / (RATES - 1);
  const at = (logRate: number): PracticeCurve => withRate(law, Math.exp(logRate), scores);
  let best = 0;
  const tried = Array.from({ length: RATES }, (_, nth) => at(Math.log(SLOWEST) + nth * step));
  for (const [nth, curve] of tried.entries()) if (curve.scatter < tried[best].scatter) best = nth;
  let low = Math.log(SLOWEST) + (best - 1) * step;
  let high = low + 2 * step;
  for (let halving = 0; halving < HALVINGS; halving++) {
    const [near, far] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (at(near).scatter <= at(far).scatter) high = far;
    else low = near;
  }
  return at((low + high) / 2);
}

/** Level and lack at a rate: a straight line through the scores over what is left, within what scores can be. */
function withRate(law: PracticeCurve['law'], rate: number, scores: readonly number[]): PracticeCurve {
  const left = scores.map((_, at) => leftOf(law, rate, at + 1));
  const [meanLeft, meanScore] = [mean(left), mean(scores)];
  let [squares, products] = [0, 0];
  for (const [at, score] of scores.entries()) {
    squares += (left[at] - meanLeft) ** 2;
    products += (left[at] - meanLeft) * (score - meanScore);
  }
  let lacking = Math.max(0, -products / squares);
  let level = meanScore + lacking * meanLeft;
  if (level > MOST) {
    level = MOST;
    const [over, under] = [
      scores.reduce((sum, score, at) => sum + left[at] * (MOST - score), 0),
      left.reduce((sum, one) => sum + one * one, 0),
    ];
    lacking = Math.max(0, over / under);
  }
  const scatter = Math.sqrt(mean(scores.map((score, at) => (score - level + lacking * left[at]) ** 2)));
  return { law, level, lacking, rate, scatter };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
