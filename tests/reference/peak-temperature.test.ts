// The heat-affected width against the worked example of the AWS Welding Handbook vol. 1, 8th ed., ch. 3 (after C. M. Adams, Welding
// Journal 37 (1958) 210s). The example's figures are from memory and were computed again from the formula, here and by another
// program; the handbook rounds sqrt(2 pi e) to 4.13, which is worth less than a thousandth.
import { expect, test } from 'vitest';
import { ALUMINIUM } from '../../sim-core/materials/aluminium.ts';
import type { Material } from '../../sim-core/materials/material.ts';
import { MILD_STEEL } from '../../sim-core/materials/mild-steel.ts';
import { STAINLESS_STEEL } from '../../sim-core/materials/stainless-steel.ts';
import { heatAffectedMm, peakDistanceAtSpotMm, peakDistanceBelowGrooveMm } from '../../sim-core/quality/heat-affected.ts';
import { expectPublished } from './expect-published.ts';
import { HANDBOOK, PEAK_TEMPERATURE_CHECKS } from './peak-temperature-checks.ts';

test.each(PEAK_TEMPERATURE_CHECKS)('$about', expectPublished);

test('below a groove: the greatest rise over time of the closed form of an instant line of heat on a half space', () => {
  // T(r, t) = H / (2 pi k t) exp(-r2 / (4 a t)): Carslaw and Jaeger 2nd ed. 1959, sec. 10.3, doubled by the surface (from memory).
  const conductivity = 0.04;
  const capacity = HANDBOOK.heatCapacityJPerMm3K;
  const greatestRiseK = (rMm: number): number => {
    let most = 0;
    for (let s = 0.001; s < 60; s *= 1.002) {
      const rise = (80 / (2 * Math.PI * conductivity * s)) * Math.exp((-rMm * rMm * capacity) / (4 * conductivity * s));
      if (rise > most) most = rise;
    }
    return most;
  };
  const width = peakDistanceBelowGrooveMm(HANDBOOK, 80, 730);
  const melted = Math.sqrt((2 * 80) / (Math.PI * Math.E * capacity * (HANDBOOK.meltingC - HANDBOOK.startC)));
  expect(greatestRiseK(melted)).toBeCloseTo(HANDBOOK.meltingC - HANDBOOK.startC, 0);
  expect(greatestRiseK(melted + width)).toBeCloseTo(730 - HANDBOOK.startC, 0);
});

test('around a spot: the greatest rise over time of the closed form of an instant line of heat through a plate', () => {
  // T(r, t) = Q / (4 pi k h t) exp(-r2 / (4 a t)): Carslaw and Jaeger 2nd ed. 1959, sec. 10.3 (from memory).
  const conductivity = 0.04;
  const { heatCapacityJPerMm3K: capacity, thicknessMm, meltingC, startC } = HANDBOOK;
  const greatestRiseK = (rMm: number): number => {
    let most = 0;
    for (let s = 0.001; s < 60; s *= 1.002) {
      const rise =
        (3000 / (4 * Math.PI * conductivity * thicknessMm * s)) * Math.exp((-rMm * rMm * capacity) / (4 * conductivity * s));
      if (rise > most) most = rise;
    }
    return most;
  };
  const width = peakDistanceAtSpotMm(HANDBOOK, 3000, 730);
  const melted = Math.sqrt(3000 / (Math.PI * Math.E * capacity * thicknessMm * (meltingC - startC)));
  expect(greatestRiseK(melted)).toBeCloseTo(meltingC - startC, 0);
  expect(greatestRiseK(melted + width)).toBeCloseTo(730 - startC, 0);
});

test('where the arc stood still the zone is that around a spot, not that of an endless hot line', () => {
  const standing = heatAffectedMm(MILD_STEEL, 12, { perMmJ: 2000, nearbyJ: 9000 }, true);
  expect(standing).toBeLessThan(2);
  expect(standing).toBeGreaterThan(heatAffectedMm(MILD_STEEL, 12, { perMmJ: 400, nearbyJ: 8000 }, true));
});

test('the width grows with the heat and falls with the thickness, and aluminium is changed farther in than either steel', () => {
  const width = (metal: Material, thicknessMm: number, perMmJ: number): number =>
    heatAffectedMm(metal, thicknessMm, { perMmJ, nearbyJ: 50 * perMmJ }, true);
  for (const metal of [MILD_STEEL, STAINLESS_STEEL, ALUMINIUM]) {
    expect(width(metal, 6, 100)).toBeCloseTo(2 * width(metal, 6, 50), 10);
    expect(width(metal, 6, 100)).toBeCloseTo(2 * width(metal, 12, 100), 10);
  }
  const [steel, stainless, aluminium] = [MILD_STEEL, STAINLESS_STEEL, ALUMINIUM].map((m) => width(m, 6, 60));
  expect(aluminium).toBeGreaterThan(2 * (steel as number));
  expect(aluminium).toBeGreaterThan(2 * (stainless as number));
});
