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
import { errorCheck, type PublishedCheck } from './published-check.ts';

const ROSENTHAL = 'D. Rosenthal, Trans. ASME 68 (1946) 849-866 (formulas read in a secondary source)';

function thickPlateError(): number {
  const field = thickPlateField();
  return Math.max(...thickPlateProbes().map(({ ix, iy, k, exactK }) => Math.abs(riseAt(field, ix, iy, k) - exactK) / exactK));
}

/** Rises of the line source's plate and Rosenthal's at cells beyond 3 cells of the source where that is at least 20 K. */
export function thinPlateProbes(): { oursK: number; exactK: number }[] {
  const power = 2000;
  const speed = 5;
  const thickness = 3;
  const cell = 0.5;
  const field = createHeatField(200, 121, 1, cell, thickness);
  const end = 78;
  drive(field, 60, [0], power, speed, 6, end, 2);
  const probes: { oursK: number; exactK: number }[] = [];
  for (let iy = 60; iy < 86; iy++) {
    for (let ix = 112; ix < 168; ix++) {
      const xi = (ix + 0.5) * cell - end;
      const r = Math.hypot(xi, (iy - 60) * cell);
      const exactK = thinPlateRise(power, thickness, speed, xi, r);
      if (r > 3 * cell && exactK >= 20) probes.push({ oursK: riseAt(field, ix, iy, 0), exactK });
    }
  }
  return probes;
}

const thinPlateError = (): number => Math.max(...thinPlateProbes().map(({ oursK, exactK }) => Math.abs(oursK - exactK) / exactK));

/** What crosses a plane behind a source of 2000 W: the integral over y of rho c h v T + k h dT/dxi, a property of the same solution. */
function powerBehindW(): number {
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
  return sum;
}

const BESSEL = [
  [0.1, 2.4270690247],
  [1, 0.4210244382],
  [2, 0.1138938727],
] as const;

/** Place along and across, mm, and temperature, degC: q = 2000 W, h = 3 mm, v = 10 mm/s, from 20 degC; computed from the formula by another program. */
const WORKED = [
  [-10, 0, 1374.955],
  [-5, 3, 1129.149],
  [0, 4, 251.632],
  [2, 0, 335.771],
  [-30, 10, 336.788],
] as const;

/** S1: a moving source on a plate, removal off. */
export const MOVING_SOURCE_CHECKS: PublishedCheck[] = [
  ...BESSEL.map(([x, published]) => ({
    ...{ about: `S1 Bessel function K0(${x})`, source: 'Abramowitz and Stegun, Table 9.8 (from memory)', unit: '1', published },
    ...{ tolerance: 0.5e-8, ours: () => besselK0(x) },
  })),
  ...WORKED.map(([xi, y, published]) => ({
    ...{ about: `S1 thin plate, closed form at ${xi}, ${y} mm`, source: ROSENTHAL, unit: 'degC', published, tolerance: 0.05 },
    ours: () => thinPlateRise(2000, 3, 10, xi, Math.hypot(xi, y)) + 20,
  })),
  errorCheck('S1 point source on a thick plate, probes beyond 3 cells', ROSENTHAL, 0.05, thickPlateError),
  errorCheck('S1 line source through a thin plate, probes beyond 3 cells', ROSENTHAL, 0.05, thinPlateError),
  {
    ...{ about: 'S1 power that crosses a plane behind the source', source: ROSENTHAL, unit: 'W', published: 2000, tolerance: 40 },
    ours: powerBehindW,
  },
];
