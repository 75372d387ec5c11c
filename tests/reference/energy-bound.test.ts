// S4: the energy of severing. What is thrown out of the kerf can never hold more than the arc delivered (a hard bound by
// conservation of energy); every joule is in thrown metal, in the plate, or lost through the kerf (the core's ledger).
// The severing efficiency is printed beside the order of magnitude 0.2 to 0.45 of literature (from memory, low confidence:
// it gates nothing).
import { describe, expect, test } from 'vitest';
import { type CouponOptions, createSimulation, MATERIALS, quantiseHand, runCoupon } from '../../sim-core/index.ts';
import { scriptedRuns } from '../determinism/scripted-runs.ts';

/** Heat of solid at ambient to liquid at melting, J/mm3, integrated here from the material's own specific heat. */
function meltJPerMm3(id: keyof typeof MATERIALS): number {
  const metal = MATERIALS[id];
  let sum = 0;
  for (let c = 20; c < metal.meltingC; c += 1) sum += metal.specificHeatJPerGK(c + 0.5);
  return (sum + metal.latentHeatJPerG) * metal.densityGPerMm3;
}

const coupons: CouponOptions[] = [
  { material: 'mild-steel', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 8 },
  { material: 'mild-steel', thicknessMm: 3, currentA: 40, rig: '40', speedMmPerS: 25 },
  { material: 'stainless-steel', thicknessMm: 10, currentA: 100, rig: '100', speedMmPerS: 8 },
  { material: 'aluminium', thicknessMm: 6, currentA: 60, rig: '60', speedMmPerS: 25 },
];

describe('the energy to sever', () => {
  test.each(coupons)('$material $thicknessMm mm at $currentA A, $speedMmPerS mm/s', (options) => {
    const result = runCoupon(options);
    expect(result.severedFraction).toBe(1);
    const area = ((result.topKerfMm + result.bottomKerfMm) / 2) * options.thicknessMm;
    const needed = options.speedMmPerS * area * meltJPerMm3(options.material);
    // Electrical power from the voltage reported and the dial: delivered power can only be less.
    const electrical = result.arcVoltageV! * options.currentA;
    expect(needed).toBeLessThan(electrical);
    expect(result.energy.removedJ).toBeLessThan(result.energy.deliveredJ);
    const { deliveredJ, removedJ, conductedJ, throughJ } = result.energy;
    expect(Math.abs(removedJ + conductedJ + throughJ - deliveredJ)).toBeLessThan(0.005 * deliveredJ);
    process.stdout.write(
      `severing efficiency ${options.material} ${options.thicknessMm} mm: ${(needed / electrical).toFixed(2)} of electrical power\n`,
    );
  });
});

test('the ledger closes to 0.5 % against the fields themselves: heat held, metal gone', () => {
  const simulation = createSimulation({
    material: 'mild-steel',
    thicknessMm: 6,
    lengthMm: 80,
    widthMm: 60,
    rig: '60',
    currentA: 60,
    seed: 0,
  });
  let y = 0;
  for (let tick = 0; tick < 240 * 5; tick++) {
    if (tick > 240) y += 8 / 240;
    // A wavering, leaning hand that leaves the metal and comes back.
    const leanYDeg = 10 * Math.sin(tick / 90);
    simulation.step(
      quantiseHand({
        xMm: 40 + Math.sin(tick / 50),
        yMm: y - (tick > 900 ? 40 : 0),
        heightMm: 1.5,
        leanXDeg: 5,
        leanYDeg,
        trigger: true,
      }),
    );
  }
  const { deliveredJ, removedJ, conductedJ, throughJ } = simulation.ledger;
  expect(deliveredJ).toBeGreaterThan(5000);
  expect(Math.abs(removedJ + conductedJ + throughJ - deliveredJ)).toBeLessThan(0.005 * deliveredJ);
  expect(Math.abs(simulation.heldJ() - conductedJ)).toBeLessThan(0.005 * deliveredJ);
  // Gone metal by volume, at least its own melting heat each cubic millimetre less what was preheated: removedJ / volume is the heat of thrown melt.
  const { cellMm, layerMm, layers } = simulation.grid;
  let gone = 0;
  for (let ix = 0; ix < 80 / cellMm; ix++) {
    for (let iy = 0; iy < 60 / cellMm; iy++) {
      for (let k = 0; k < layers; k++) gone += simulation.goneAt((ix + 0.5) * cellMm, (iy + 0.5) * cellMm, (k + 0.5) * layerMm);
    }
  }
  const perMm3 = removedJ / (gone * cellMm * cellMm * layerMm);
  const steel = MATERIALS['mild-steel'];
  const thrown = meltJPerMm3('mild-steel') + steel.superheatJPerG * steel.densityGPerMm3;
  expect(Math.abs(perMm3 / thrown - 1)).toBeLessThan(0.02);
});

test.each(scriptedRuns())('the ledger closes for: $name', ({ setup, hand }) => {
  const simulation = createSimulation(setup);
  for (const tick of hand) simulation.step(tick);
  const { deliveredJ, removedJ, conductedJ, throughJ } = simulation.ledger;
  expect(deliveredJ).toBeGreaterThan(5000);
  expect(Math.abs(removedJ + conductedJ + throughJ - deliveredJ)).toBeLessThan(0.005 * deliveredJ);
  // A piece that falls takes its heat out of the field's reach, but not out of the field.
  expect(Math.abs(simulation.heldJ() - conductedJ)).toBeLessThan(0.005 * deliveredJ);
});
