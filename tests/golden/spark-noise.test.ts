// The spark angle that a trainee reads must stand still at constant speed: noise below 1.5 deg (design), with the core's own
// filter of 60 ms (its stated bound). Noise = standard deviation about the mean over the steady part of a straight cut.
import { expect, test } from 'vitest';
import { createSimulation, quantiseHand } from '../../sim-core/index.ts';
import { MODEL } from '../../sim-core/physics/model-constants.ts';

test('the filter is no longer than stated', () => {
  expect(MODEL.sparkFilterS).toBeLessThanOrEqual(0.06);
});

test.each([
  ['mild-steel', 3, 40, 12],
  ['mild-steel', 3, 40, 20],
  ['mild-steel', 6, 60, 8],
  ['mild-steel', 6, 60, 13],
  ['mild-steel', 10, 60, 5],
  ['stainless-steel', 6, 60, 10],
  ['aluminium', 6, 60, 30],
] as const)('%s %i mm %i A at %i mm/s', (material, thicknessMm, currentA, speed) => {
  // A heading that is no multiple of a right angle: rows of cells must not show.
  const simulation = createSimulation({
    material,
    thicknessMm,
    lengthMm: 90,
    widthMm: 70,
    rig: currentA > 40 ? '60' : '40',
    currentA,
    seed: 0,
  });
  const angles: number[] = [];
  let along = 0;
  for (let tick = 0; along < 55; tick++) {
    if (tick > 420) along += speed / 240;
    simulation.step(
      quantiseHand({ xMm: along * 0.96, yMm: 20 + along * 0.28, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: true }),
    );
    if (along > 20 && along < 50) angles.push(simulation.sample.sparkAngleDeg);
  }
  const mean = angles.reduce((sum, a) => sum + a, 0) / angles.length;
  const spread = Math.sqrt(angles.reduce((sum, a) => sum + (a - mean) ** 2, 0) / angles.length);
  expect(mean).toBeGreaterThan(8);
  expect(spread).toBeLessThan(1.5);
});
