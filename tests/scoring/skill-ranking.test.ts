// Hands of known skill: the score ranks them. The whole campaign, on every drill, is `npm run prove:skill`.
import { describe, expect, test } from 'vitest';
import { runAnyHand, windowOfDrill } from '../../sim-core/index.ts';
import { persistentHand } from '../prove/skill/persistent-hand.ts';
import { rankCorrelation, spearman } from '../prove/skill/rank-correlation.ts';
import { SKILLS, skillOn, skillWeights, syntheticHands } from '../prove/skill/skill-vector.ts';
import { skilledScript } from '../prove/skill/skilled-script.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';

const HANDS = 10;

test.each(['galley-panel-contact-1-5', 'guard-patch-straight-3'])(
  'ten hands on %s are ranked by what they can',
  (id) => {
    const drill = shippedDrill(id);
    const window = windowOfDrill(drill);
    const hands = syntheticHands(HANDS, 20261128);
    const scores = hands.map((hand) => {
      const seed = 1000 + hand.number;
      const script = skilledScript(hand, drill, window, { counter: seed });
      return runAnyHand(drill, persistentHand(drill, script, seed), seed).score.score;
    });
    const skills = hands.map(({ skill }) => skillOn(drill, skill));
    // Chance alone gives ten hands 0.75 in less than one case of a hundred (two-sided table of critical values; from memory).
    expect(spearman(skills, scores), JSON.stringify(scores)).toBeGreaterThan(0.85);
  },
  120_000,
);

describe('rank correlation', () => {
  test('the well-known ten of intelligence and hours of television: 1 - 6 * 194 / (10 * 99) (from memory, arithmetic by hand)', () => {
    const quotients = [106, 86, 100, 101, 99, 103, 97, 113, 112, 110];
    const hours = [7, 0, 27, 50, 28, 29, 20, 12, 6, 17];
    expect(spearman(quotients, hours)).toBeCloseTo(-29 / 165, 12);
  });

  test('is 1 for any rising curve, shares ranks between equals, and its interval holds it', () => {
    const rising = [1, 2, 3, 4, 5, 6];
    expect(
      spearman(
        rising,
        rising.map((value) => value ** 3),
      ),
    ).toBeCloseTo(1, 12);
    // Ranks 1.5, 1.5, 3 against 1, 2, 3: cov 1.5 over the root of 1.5 times 2.
    expect(spearman([4, 4, 9], [1, 2, 3])).toBeCloseTo(1.5 / Math.sqrt(3), 12);
    const { rho, low, high } = rankCorrelation([1, 2, 3, 4, 5, 6, 7, 8], [2, 1, 4, 3, 6, 5, 8, 7], { counter: 3 });
    expect(low).toBeLessThanOrEqual(rho);
    expect(high).toBeGreaterThanOrEqual(rho);
  });
});

test('a drill weighs each skill by what its rubric marks', () => {
  const weights = skillWeights(shippedDrill('hanger-tab-straight-6'));
  expect(SKILLS.reduce((sum, skill) => sum + weights[skill], 0)).toBeCloseTo(1, 12);
  expect(weights.line).toBeGreaterThan(weights.reaction);
  // A groove has no pause at its start to be marked.
  expect(skillWeights(shippedDrill('hanger-weld-gouge-12')).dwell).toBe(0);
});
