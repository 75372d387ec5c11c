import { conduct, createHeatField, stableStepS } from '../../sim-core/physics/heat-field.ts';
import { constantMetal } from './constant-metal.ts';
import { errorCheck, type PublishedCheck } from './published-check.ts';

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

/** Greatest error of the heat field over its upper half after 0.1 s, as a share of the rise of the surface. */
function fieldError(): number {
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
  let greatest = 0;
  for (let k = 0; k < 200; k++) {
    const rise = field.heatJ[k]! / cell / (K / A);
    greatest = Math.max(greatest, Math.abs(rise - exactRise((k + 0.5) * cell, t)) / exactRise(0, t));
  }
  return greatest;
}

const SOURCE = 'Carslaw and Jaeger 1959, sec. 2.9 eq. (7) (from memory)';

/** Depth, mm, time, s, and the temperature, degC, for 1e8 W/m2, k = 41, a = 9.1e-6, from 20 degC; computed from the formula. */
const WORKED = [
  [0, 0.01, 850.218],
  [0.1, 0.01, 629.019],
  [0.5, 0.01, 143.613],
  [1, 0.1, 896.316],
] as const;

/** S3: constant flux on a half space. */
export const SURFACE_FLUX_CHECKS: PublishedCheck[] = [
  ...WORKED.map(([xMm, t, published]) => ({
    ...{ about: `S3 closed form at ${xMm} mm after ${t} s`, source: SOURCE, unit: 'degC', published, tolerance: 0.05 },
    ours: () => exactRise(xMm, t) + 20,
  })),
  errorCheck('S3 heat field at 200 depths, of the rise of the surface', SOURCE, 0.01, fieldError),
];
