// S1: removal off, a moving source on a plate against Rosenthal's closed forms (D. Rosenthal, 'The theory of moving sources of
// heat and its application to metal treatments', Trans. ASME 68 (1946) 849-866; formulas read in a secondary source, the
// citation is from memory). Catches a wrong sign of the travel, a conductance taken once too often, and heat lost at the rim.
import { expect, test } from 'vitest';
import { conduct, createHeatField, type HeatField, stableStepS } from '../../sim-core/physics/heat-field.ts';
import { constantMetal } from './constant-metal.ts';

const CONDUCTIVITY = 0.041;
const DIFFUSIVITY = 9.1;
const table = constantMetal(CONDUCTIVITY, CONDUCTIVITY / DIFFUSIVITY);

/** Drives a source along the row `iy`, from `fromMm` to `toMm`, depositing around the nearest cell of each given layer. */
function drive(
  field: HeatField,
  iy: number,
  layers: number[],
  powerW: number,
  speedMmPerS: number,
  fromMm: number,
  toMm: number,
  parts: number,
): void {
  const step = stableStepS(field, table) / parts;
  const steps = Math.round((toMm - fromMm) / speedMmPerS / step);
  for (let n = 0; n < steps; n++) {
    const x = fromMm + (n + 0.5) * step * speedMmPerS;
    const place = x / field.cellMm - 0.5;
    const ix = Math.round(place);
    // Three cells with the source's own first and second moment: a smear would be felt three cells away.
    const d = place - ix;
    for (const k of layers) {
      const cell = (k * field.ny + iy) * field.nx + ix;
      const joules = (powerW * step) / layers.length;
      field.heatJ[cell - 1]! += (joules * d * (d - 1)) / 2;
      field.heatJ[cell]! += joules * (1 - d * d);
      field.heatJ[cell + 1]! += (joules * d * (d + 1)) / 2;
    }
    conduct(field, table, step, 0, 0, field.nx, field.ny);
  }
}

function riseAt(field: HeatField, ix: number, iy: number, k: number): number {
  return field.heatJ[(k * field.ny + iy) * field.nx + ix]! / (field.cellMm ** 2 * field.layerMm) / (CONDUCTIVITY / DIFFUSIVITY);
}

/** Modified Bessel function K0 by its integral, integral over u > 0 of exp(-x cosh u); trapezoid, exact to 1e-10 here. */
function besselK0(x: number): number {
  let sum = 0.5 * Math.exp(-x);
  for (let u = 0.01; u < 12; u += 0.01) sum += Math.exp(-x * Math.cosh(u));
  return sum * 0.01;
}

test('the Bessel function of the thin-plate form has its tabulated values', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, Table 9.8 (from memory).
  expect(besselK0(0.1)).toBeCloseTo(2.4270690247, 8);
  expect(besselK0(1)).toBeCloseTo(0.4210244382, 8);
  expect(besselK0(2)).toBeCloseTo(0.1138938727, 8);
});

/** Rosenthal's two-dimensional form, K above the start. */
function thinPlateRise(powerW: number, thicknessMm: number, speed: number, xiMm: number, rMm: number): number {
  const factor = powerW / (2 * Math.PI * CONDUCTIVITY * thicknessMm);
  return factor * Math.exp((-speed * xiMm) / (2 * DIFFUSIVITY)) * besselK0((speed * rMm) / (2 * DIFFUSIVITY));
}

test('the two-dimensional form has its worked values', () => {
  // q = 2000 W, h = 3 mm, v = 10 mm/s, above 20 degC; computed from the formula by another program.
  const worked: [number, number, number][] = [
    [-10, 0, 1374.955],
    [-5, 3, 1129.149],
    [0, 4, 251.632],
    [2, 0, 335.771],
    [-30, 10, 336.788],
  ];
  for (const [xi, y, celsius] of worked) expect(thinPlateRise(2000, 3, 10, xi, Math.hypot(xi, y)) + 20).toBeCloseTo(celsius, 1);
});

test('a point source on a thick plate: every probe beyond 3 cells within 5 % of the rise', () => {
  const power = 3000;
  const speed = 5;
  const cell = 0.5;
  const field = createHeatField(100, 49, 24, cell, cell);
  const end = 34.25;
  drive(field, 24, [0], power, speed, 6, end, 2);
  let probes = 0;
  for (let k = 0; k < 12; k++) {
    for (let iy = 24; iy < 38; iy++) {
      for (let ix = 42; ix < 80; ix++) {
        const xi = (ix + 0.5) * cell - end;
        const y = (iy - 24) * cell;
        const z = (k + 0.5) * cell;
        const r = Math.hypot(xi, y, z);
        if (r <= 3 * cell || r > 12) continue;
        // The source lies in the middle of the top cell; its images across the top, the underside and the two sides keep
        // those faces adiabatic, as they are in the field.
        let exact = 0;
        for (const depth of [cell / 2, -cell / 2, 2 * 24 * cell - cell / 2, 2 * 24 * cell + cell / 2]) {
          for (const across of [0, 49 * cell, -49 * cell]) {
            const away = Math.hypot(xi, y - across, z - depth);
            exact += (power / (4 * Math.PI * CONDUCTIVITY * away)) * Math.exp((-speed * (xi + away)) / (2 * DIFFUSIVITY));
          }
        }
        // Under 20 K there is nothing to take five per cent of.
        if (exact < 20) continue;
        probes++;
        expect(Math.abs(riseAt(field, ix, iy, k) - exact) / exact, `probe ${xi}, ${y}, ${z}`).toBeLessThan(0.05);
      }
    }
  }
  expect(probes).toBeGreaterThan(500);
});

test('a line source through a thin plate: every probe beyond 3 cells within 5 % of the rise', () => {
  const power = 2000;
  const speed = 5;
  const thickness = 3;
  const cell = 0.5;
  const field = createHeatField(200, 121, 1, cell, thickness);
  const end = 78;
  drive(field, 60, [0], power, speed, 6, end, 2);
  let probes = 0;
  for (let iy = 60; iy < 86; iy++) {
    for (let ix = 112; ix < 168; ix++) {
      const xi = (ix + 0.5) * cell - end;
      const y = (iy - 60) * cell;
      const r = Math.hypot(xi, y);
      if (r <= 3 * cell) continue;
      const exact = thinPlateRise(power, thickness, speed, xi, r);
      if (exact < 20) continue;
      probes++;
      expect(Math.abs(riseAt(field, ix, iy, 0) - exact) / exact, `probe ${xi}, ${y}`).toBeLessThan(0.05);
    }
  }
  expect(probes).toBeGreaterThan(200);
});

test('what crosses a plane behind the source is its power', () => {
  // Integral over y of rho c h v dT + k h dT/dxi at a plane behind the source = q: a property of the same solution.
  const power = 2000;
  const speed = 10;
  const field = createHeatField(150, 121, 1, 1, 3);
  drive(field, 60, [0], power, speed, 10, 120, 1);
  let sum = 0;
  const ix = 99;
  for (let iy = 0; iy < 121; iy++) {
    const rise = (riseAt(field, ix, iy, 0) + riseAt(field, ix + 1, iy, 0)) / 2;
    sum +=
      (CONDUCTIVITY / DIFFUSIVITY) * 3 * speed * rise +
      CONDUCTIVITY * 3 * (riseAt(field, ix + 1, iy, 0) - riseAt(field, ix, iy, 0));
  }
  expect(Math.abs(sum - power) / power).toBeLessThan(0.02);
});
