// S1: removal off, a moving source on a plate against Rosenthal's closed forms (D. Rosenthal, 'The theory of moving sources of
// heat and its application to metal treatments', Trans. ASME 68 (1946) 849-866; formulas read in a secondary source, the
// citation is from memory). Catches a wrong sign of the travel, a conductance taken once too often, and heat lost at the rim.
import { expect, test } from 'vitest';
import { createHeatField } from '../../sim-core/physics/heat-field.ts';
import {
  besselK0,
  CONDUCTIVITY,
  DIFFUSIVITY,
  drive,
  riseAt,
  thickPlateField,
  thickPlateProbes,
  thinPlateRise,
} from './moving-source.ts';

test('the Bessel function of the thin-plate form has its tabulated values', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, Table 9.8 (from memory).
  expect(besselK0(0.1)).toBeCloseTo(2.4270690247, 8);
  expect(besselK0(1)).toBeCloseTo(0.4210244382, 8);
  expect(besselK0(2)).toBeCloseTo(0.1138938727, 8);
});

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
  const field = thickPlateField();
  const probes = thickPlateProbes();
  for (const { ix, iy, k, exactK } of probes)
    expect(Math.abs(riseAt(field, ix, iy, k) - exactK) / exactK, `probe ${ix}, ${iy}, ${k}`).toBeLessThan(0.05);
  expect(probes.length).toBeGreaterThan(500);
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
