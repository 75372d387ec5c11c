// The spark angle is the front's, whichever way the hand goes over the plate: the same cut turned is told the same angle.
import { expect, test } from 'vitest';
import { createSimulation, quantiseHand } from '../../sim-core/index.ts';

/** Mean angle over 30 mm of a straight cut through the middle of a square plate, deg. */
function meanAngleDeg(headingDeg: number, thicknessMm: number, mmPerS: number, pauseS: number): number {
  const simulation = createSimulation({
    ...{ material: 'mild-steel', thicknessMm, lengthMm: 120, widthMm: 120, rig: '60', currentA: 45, seed: 0 },
  });
  const heading = (headingDeg * Math.PI) / 180;
  let [sum, count, along] = [0, 0, -28];
  for (let tick = 0; along < 25; tick++) {
    if (tick > pauseS * 240) along += mmPerS / 240;
    simulation.step(
      quantiseHand({
        ...{ xMm: 60 + along * Math.cos(heading), yMm: 60 + along * Math.sin(heading) },
        ...{ heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: true },
      }),
    );
    if (along <= -5) continue;
    sum += simulation.sample.sparkAngleDeg;
    count++;
  }
  return sum / count;
}

// Cells are squares: a front across their diagonal is a little another front (about 1 deg), its reading is not.
test.each([
  ['3 mm, fast', 3, 40],
  ['6 mm', 6, 14],
] as const)('%s', (_what, thicknessMm, mmPerS) => {
  const straight = meanAngleDeg(0, thicknessMm, mmPerS, 1.6);
  expect(straight).toBeGreaterThan(20);
  for (const headingDeg of [15, 30, 45, 60, 90, 135]) {
    expect(Math.abs(meanAngleDeg(headingDeg, thicknessMm, mmPerS, 1.6) - straight), `${headingDeg} deg`).toBeLessThan(1.2);
  }
});
