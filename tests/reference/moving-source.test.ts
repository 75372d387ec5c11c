// S1: removal off, a moving source on a plate against Rosenthal's closed forms (D. Rosenthal, 'The theory of moving sources of
// heat and its application to metal treatments', Trans. ASME 68 (1946) 849-866; formulas read in a secondary source, the
// citation is from memory). Catches a wrong sign of the travel, a conductance taken once too often, and heat lost at the rim.
import { expect, test } from 'vitest';
import { expectPublished } from './expect-published.ts';
import { thickPlateProbes } from './moving-source.ts';
import { MOVING_SOURCE_CHECKS, thinPlateProbes } from './moving-source-checks.ts';

test.each(MOVING_SOURCE_CHECKS)('$about', expectPublished);

test('the plates are compared at many places', () => {
  expect(thickPlateProbes().length).toBeGreaterThan(500);
  expect(thinPlateProbes().length).toBeGreaterThan(200);
});
