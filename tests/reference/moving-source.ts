import { conduct, createHeatField, type HeatField, stableStepS } from '../../sim-core/physics/heat-field.ts';
import { constantMetal } from './constant-metal.ts';

/** W/(mm K) and mm2/s of the steel of the worked values. */
export const CONDUCTIVITY = 0.041;
export const DIFFUSIVITY = 9.1;
const table = constantMetal(CONDUCTIVITY, CONDUCTIVITY / DIFFUSIVITY);

/** Drives a source along the row `iy`, from `fromMm` to `toMm`, depositing around the nearest cell of each given layer. */
export function drive(
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

/** K above the start. */
export function riseAt(field: HeatField, ix: number, iy: number, k: number): number {
  return field.heatJ[(k * field.ny + iy) * field.nx + ix]! / (field.cellMm ** 2 * field.layerMm) / (CONDUCTIVITY / DIFFUSIVITY);
}

/** Modified Bessel function K0 by its integral, integral over u > 0 of exp(-x cosh u); trapezoid, exact to 1e-10 here. */
export function besselK0(x: number): number {
  let sum = 0.5 * Math.exp(-x);
  for (let u = 0.01; u < 12; u += 0.01) sum += Math.exp(-x * Math.cosh(u));
  return sum * 0.01;
}

/** Rosenthal's two-dimensional form, K above the start. */
export function thinPlateRise(powerW: number, thicknessMm: number, speed: number, xiMm: number, rMm: number): number {
  const factor = powerW / (2 * Math.PI * CONDUCTIVITY * thicknessMm);
  return factor * Math.exp((-speed * xiMm) / (2 * DIFFUSIVITY)) * besselK0((speed * rMm) / (2 * DIFFUSIVITY));
}

/** The thick plate that is heated by a point source: cells, source and the places that are compared. */
export const THICK_PLATE = {
  nx: 100,
  ny: 49,
  nz: 24,
  cellMm: 0.5,
  powerW: 3000,
  speedMmPerS: 5,
  fromMm: 6,
  toMm: 34.25,
  /** Of the cells: the row that the source runs along, and those that are looked at when it is at its end. */
  row: 24,
  probes: { ix: [42, 80], iy: [24, 38], k: [0, 12] },
} as const;

/** The core's conduction on that plate. */
export function thickPlateField(): HeatField {
  const { nx, ny, nz, cellMm, powerW, speedMmPerS, fromMm, toMm, row } = THICK_PLATE;
  const field = createHeatField(nx, ny, nz, cellMm, cellMm);
  drive(field, row, [0], powerW, speedMmPerS, fromMm, toMm, 2);
  return field;
}

/** A cell that is compared, its number in the order of the loops over the probes' cells, and Rosenthal's rise there, K. */
export interface ThickPlateProbe {
  number: number;
  ix: number;
  iy: number;
  k: number;
  exactK: number;
}

/**
 * Cells beyond 3 cells and within 12 mm of the source, with Rosenthal's three-dimensional form. The source lies in the middle of
 * the top cell; its images across the top, the underside and the two sides keep those faces adiabatic, as they are in the field.
 */
export function thickPlateProbes(): ThickPlateProbe[] {
  const { ny, nz, cellMm, powerW, speedMmPerS, toMm, row, probes } = THICK_PLATE;
  const found: ThickPlateProbe[] = [];
  let number = -1;
  for (let k = probes.k[0]; k < probes.k[1]; k++) {
    for (let iy = probes.iy[0]; iy < probes.iy[1]; iy++) {
      for (let ix = probes.ix[0]; ix < probes.ix[1]; ix++) {
        number++;
        const xi = (ix + 0.5) * cellMm - toMm;
        const y = (iy - row) * cellMm;
        const z = (k + 0.5) * cellMm;
        const r = Math.hypot(xi, y, z);
        if (r <= 3 * cellMm || r > 12) continue;
        let exactK = 0;
        for (const depth of [cellMm / 2, -cellMm / 2, 2 * nz * cellMm - cellMm / 2, 2 * nz * cellMm + cellMm / 2]) {
          for (const across of [0, ny * cellMm, -ny * cellMm]) {
            const away = Math.hypot(xi, y - across, z - depth);
            exactK += (powerW / (4 * Math.PI * CONDUCTIVITY * away)) * Math.exp((-speedMmPerS * (xi + away)) / (2 * DIFFUSIVITY));
          }
        }
        // Under 20 K there is nothing to take a share of.
        if (exactK >= 20) found.push({ number, ix, iy, k, exactK });
      }
    }
  }
  return found;
}
