import { conduct, createHeatField, stableStepS } from '../../sim-core/physics/heat-field.ts';
import { meltingMetal } from './constant-metal.ts';
import { errorCheck, type PublishedCheck } from './published-check.ts';

// Steel-like: kL = kS = 30 W/mK, rho = 7000, cL = 800, cS = 650 J/kgK, L = 247 kJ/kg, 20 -> 1520 -> 2800 degC.
const K = 0.03;
const SOLID = 7e-3 * 0.65;
const LIQUID = 7e-3 * 0.8;
const LATENT = 7e-3 * 247;
const MELT = 1500;
const HOT = 2780;

function erf(x: number): number {
  let sum = 0;
  let term = x;
  for (let n = 0; n < 60; n++) {
    sum += term / (2 * n + 1);
    term *= -(x * x) / (n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

/** Root of the transcendental equation, by bisection. */
function neumannLambda(): number {
  const aL = K / LIQUID;
  const aS = K / SOLID;
  const excess = (l: number): number =>
    Math.exp(-l * l) / erf(l) -
    Math.sqrt(aL / aS) * (MELT / (HOT - MELT)) * (Math.exp((-l * l * aL) / aS) / (1 - erf(l * Math.sqrt(aL / aS)))) -
    (l * LATENT * Math.sqrt(Math.PI)) / (LIQUID * (HOT - MELT));
  let low = 0.05;
  let high = 1.5;
  for (let n = 0; n < 80; n++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

/** Mean and greatest relative error of the front from 0.1 s to 0.4 s at a cell size. */
export function frontError(cellMm: number): { mean: number; greatest: number } {
  const table = meltingMetal(K, SOLID, LIQUID, MELT, LATENT);
  const layers = Math.round(10 / cellMm);
  const field = createHeatField(1, 1, layers, 1, cellMm);
  const step = stableStepS(field, table) / 2;
  const lambda = neumannLambda();
  const hold = (LATENT + SOLID * MELT + LIQUID * (HOT - MELT)) * cellMm;
  let sum = 0;
  let count = 0;
  let greatest = 0;
  for (let t = step; t < 0.4; t += step) {
    field.heatJ[0] = hold;
    conduct(field, table, step, 0, 0, 1, 1);
    if (t < 0.1) continue;
    // Liquid in the field, measured from the middle of the held cell.
    let front = 0.5 * cellMm;
    for (let k = 1; k < layers; k++) {
      const share = (field.heatJ[k]! / cellMm - SOLID * MELT) / LATENT;
      front += cellMm * Math.min(1, Math.max(0, share));
    }
    const exact = 2 * lambda * Math.sqrt((K / LIQUID) * t);
    const error = Math.abs(front - exact) / exact;
    sum += error;
    count++;
    greatest = Math.max(greatest, error);
  }
  return { mean: sum / count, greatest };
}

const SOURCE =
  'Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, ch. XI; Alexiades and Solomon 1993, ch. 2 (from memory)';

/** S2: the Neumann solution of the two-phase Stefan problem. */
export const MELTING_FRONT_CHECKS: PublishedCheck[] = [
  {
    ...{ about: 'S2 root of the transcendental equation', source: SOURCE, unit: '1', published: 0.44136622, tolerance: 0.5e-7 },
    ours: neumannLambda,
  },
  ...[0.04, 0.02].map((cellMm) =>
    errorCheck(`S2 melting front, cells of ${cellMm} mm`, SOURCE, 0.02, () => frontError(cellMm).greatest),
  ),
];
