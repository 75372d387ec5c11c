// S2: a melting front in a half space against the Neumann solution of the two-phase Stefan problem (H. S. Carslaw and
// J. C. Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, ch. XI; V. Alexiades and A. D. Solomon, Mathematical Modeling of
// Melting and Freezing Processes, 1993, ch. 2; both from memory). Catches latent heat lost or counted twice.
import { expect, test } from 'vitest';
import { expectPublished } from './expect-published.ts';
import { frontError, MELTING_FRONT_CHECKS } from './melting-front.ts';

test.each(MELTING_FRONT_CHECKS)('$about', expectPublished);

test('half the cell at least halves the error', () => {
  expect(frontError(0.02).mean).toBeLessThanOrEqual(frontError(0.04).mean / 2);
});
