// S3: constant flux on a half space (Carslaw and Jaeger 1959, sec. 2.9 eq. (7), from memory): what an edge start and a pierce
// do before anything melts.
import { expect, test } from 'vitest';
import { conduct, createHeatField, stableStepS } from '../../sim-core/physics/heat-field.ts';
import { constantMetal } from './constant-metal.ts';

const K = 0.041;
const A = 9.1;
const FLUX = 100;

function erfc(x: number): number {
  // Continued trapezoid of the defining integral; exact to 1e-9 for the arguments used here.
  let sum = 0;
  const h = 0.0005;
  for (let u = x + h / 2; u < x + 8; u += h) sum += Math.exp(-u * u) * h;
  return (2 / Math.sqrt(Math.PI)) * sum;
}

function exactRise(xMm: number, t: number): number {
  return (
    ((2 * FLUX) / K) *
    (Math.sqrt((A * t) / Math.PI) * Math.exp((-xMm * xMm) / (4 * A * t)) - (xMm / 2) * erfc(xMm / (2 * Math.sqrt(A * t))))
  );
}

test('the closed form has its worked values', () => {
  // q" = 1e8 W/m2, k = 41, a = 9.1e-6, above 20 degC; computed from the formula.
  expect(exactRise(0, 0.01) + 20).toBeCloseTo(850.218, 1);
  expect(exactRise(0.1, 0.01) + 20).toBeCloseTo(629.019, 1);
  expect(exactRise(0.5, 0.01) + 20).toBeCloseTo(143.613, 1);
  expect(exactRise(1, 0.1) + 20).toBeCloseTo(896.316, 1);
});

test('the heat field follows it within 1 % of the surface rise, at every depth', () => {
  const cell = 0.02;
  const table = constantMetal(K, K / A);
  const field = createHeatField(1, 1, 400, 1, cell);
  const step = stableStepS(field, table);
  let t = 0;
  while (t < 0.1) {
    field.heatJ[0]! += FLUX * step;
    conduct(field, table, step, 0, 0, 1, 1);
    t += step;
  }
  for (let k = 0; k < 200; k++) {
    const rise = field.heatJ[k]! / cell / (K / A);
    expect(Math.abs(rise - exactRise((k + 0.5) * cell, t))).toBeLessThan(0.01 * exactRise(0, t));
  }
});
