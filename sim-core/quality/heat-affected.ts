import { enthalpyOfHeating } from '../materials/enthalpy-table.ts';
import { AMBIENT_C, type Material } from '../materials/material.ts';
import { PI } from '../math/elementary.ts';
import { HEAT_LIMIT_C } from './quality-constants.ts';

const E = 2.718281828459045;

/** sqrt(2 pi e): the constant of Adams's formula. */
const ADAMS = Math.sqrt(2 * PI * E);

/** Figures of a metal as the peak-temperature formulas take them: one heat capacity, J/(mm3 K), temperatures in degC. */
export interface HeatedPlate {
  thicknessMm: number;
  heatCapacityJPerMm3K: number;
  meltingC: number;
  startC: number;
}

/**
 * Distance from the edge of melting at which a plate heated through its thickness peaks at a temperature, mm:
 * 1/(Tp - T0) = sqrt(2 pi e) rho c h Y / H + 1/(Tm - T0), H in J per mm of cut. C. M. Adams, Welding Journal 37 (1958) 210s, as
 * given in the AWS Welding Handbook vol. 1, 8th ed., ch. 3 (from memory).
 */
export function peakDistanceMm(plate: HeatedPlate, heatJPerMm: number, peakC: number): number {
  const { thicknessMm, heatCapacityJPerMm3K, meltingC, startC } = plate;
  const inverse = 1 / (peakC - startC) - 1 / (meltingC - startC);
  return (inverse * heatJPerMm) / (ADAMS * heatCapacityJPerMm3K * thicknessMm);
}

/**
 * The same below a groove that does not go through: an instant line of heat on a half space peaks at
 * Tp - T0 = 2 H / (pi e rho c r2), so the distance is that between the two radii. Closed form of Carslaw and Jaeger's line source.
 */
export function peakDistanceBelowGrooveMm(plate: HeatedPlate, heatJPerMm: number, peakC: number): number {
  const { heatCapacityJPerMm3K, meltingC, startC } = plate;
  const radius = (riseK: number): number => Math.sqrt((2 * heatJPerMm) / (PI * E * heatCapacityJPerMm3K * riseK));
  return radius(peakC - startC) - radius(meltingC - startC);
}

/**
 * The same around a spot where all of the heat, J, came at once: Tp - T0 = Q / (pi e rho c h r2), the greatest rise of the closed
 * form of an instant line source through a plate (Carslaw and Jaeger). However long the arc stood there, it is no more than that.
 */
export function peakDistanceAtSpotMm(plate: HeatedPlate, heatJ: number, peakC: number): number {
  const { thicknessMm, heatCapacityJPerMm3K, meltingC, startC } = plate;
  const radius = (riseK: number): number => Math.sqrt(heatJ / (PI * E * heatCapacityJPerMm3K * thicknessMm * riseK));
  return radius(peakC - startC) - radius(meltingC - startC);
}

/** Heat left in the plate around a place: per mm of cut, J, and all of it within about 10 mm, J. */
export interface HeatOfPlace {
  perMmJ: number;
  nearbyJ: number;
}

/**
 * Width of the heat-affected zone on one side of a cut, mm. Where the arc stood still, the heat per mm says nothing, and the zone is
 * the one around a spot: the smaller figure holds.
 */
export function heatAffectedMm(material: Material, thicknessMm: number, heat: HeatOfPlace, through: boolean): number {
  const meltingK = material.meltingC - AMBIENT_C;
  const plate: HeatedPlate = {
    thicknessMm,
    heatCapacityJPerMm3K: (enthalpyOfHeating(material, 0, meltingK) * material.densityGPerMm3) / meltingK,
    meltingC: material.meltingC,
    startC: AMBIENT_C,
  };
  const limitC = HEAT_LIMIT_C[material.id];
  const alongCut = through ? peakDistanceMm(plate, heat.perMmJ, limitC) : peakDistanceBelowGrooveMm(plate, heat.perMmJ, limitC);
  const atSpot = peakDistanceAtSpotMm(plate, heat.nearbyJ, limitC);
  return alongCut < atSpot ? alongCut : atSpot;
}
