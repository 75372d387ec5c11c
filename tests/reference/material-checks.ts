import { enthalpyOfHeating, enthalpyTable } from '../../sim-core/materials/enthalpy-table.ts';
import type { Material } from '../../sim-core/materials/material.ts';
import type { MaterialId } from '../../sim-core/materials/material-id.ts';
import { MATERIALS } from '../../sim-core/materials/materials.ts';
import type { PublishedCheck } from './published-check.ts';

const STEEL = 'EN 1993-1-2:2005 sec. 3.4.1 (read)';
const STAINLESS = 'C. S. Kim, ANL-75-55 (1975) (from memory)';
const ALUMINIUM = 'EN 1999-1-2 sec. 3.3.2 (from memory)';

/** Tolerance of a figure that is given to so many places. */
const toPlaces = (places: number): number => 0.5 * 10 ** -places;

function specificHeat(id: MaterialId, source: string, celsius: number, published: number, places: number): PublishedCheck {
  return {
    ...{
      about: `S5 specific heat of ${id} at ${celsius} degC`,
      source,
      unit: 'J/(kg K)',
      published,
      tolerance: toPlaces(places),
    },
    ours: () => MATERIALS[id].specificHeatJPerGK(celsius) * 1000,
  };
}

function conductivity(id: MaterialId, source: string, celsius: number, published: number, places: number): PublishedCheck {
  return {
    ...{ about: `S5 conductivity of ${id} at ${celsius} degC`, source, unit: 'W/(m K)', published, tolerance: toPlaces(places) },
    ours: () => MATERIALS[id].conductivityWPerMmK(celsius) * 1000,
  };
}

function heatToWarm(id: MaterialId, source: string, riseK: number, published: number, tolerance: number): PublishedCheck {
  return {
    ...{ about: `S5 heat to warm ${id} by ${riseK} K`, source, unit: 'kJ/kg', published, tolerance },
    ours: () => enthalpyOfHeating(MATERIALS[id], 0, riseK),
  };
}

const liquidKJPerKg = (metal: Material): number => enthalpyTable(metal).liquidusJPerMm3 / metal.densityGPerMm3;

/** Celsius and the standard's value. */
const STEEL_HEAT = [
  [20, 439.802],
  [100, 487.62],
  [200, 529.76],
  [400, 605.88],
  [600, 760.217],
  [700, 1008.158],
  [735, 5000],
  [800, 803.261],
  [1200, 650],
] as const;
const STEEL_CONDUCTIVITY = [
  [20, 53.334],
  [100, 50.67],
  [200, 47.34],
  [400, 40.68],
  [600, 34.02],
  [700, 30.69],
  [800, 27.3],
  [1200, 27.3],
] as const;
/** Integrated in closed form from the standard's polynomials. The peak at 735 degC is integrated in steps of half a kelvin: 0.5 %. */
const STEEL_WARMING = [
  [200, 88.191],
  [600, 335.738],
  [735, 475.428],
  [900, 632.064],
  [1200, 827.064],
] as const;

/** S5: the standards' own formulas, worked out apart from the core's. */
export const MATERIAL_CHECKS: PublishedCheck[] = [
  ...STEEL_HEAT.map(([celsius, value]) => specificHeat('mild-steel', STEEL, celsius, value, 2)),
  ...STEEL_CONDUCTIVITY.map(([celsius, value]) => conductivity('mild-steel', STEEL, celsius, value, 2)),
  ...STEEL_WARMING.map(([celsius, value]) => heatToWarm('mild-steel', STEEL, celsius - 20, value, 0.005 * value)),
  {
    ...{ about: 'S5 heat to liquid steel (near 1.28 MJ/kg; of pure iron about 1.30)', source: 'JANAF tables (from memory)' },
    ...{ unit: 'kJ/kg', published: 1285, tolerance: 25 },
    ours: () => liquidKJPerKg(MATERIALS['mild-steel']),
  },
  ...[400, 800, 1200, 1600].flatMap((kelvin) => [
    specificHeat('stainless-steel', STAINLESS, kelvin - 273.15, 469.4 + 0.1348 * kelvin, 6),
    conductivity('stainless-steel', STAINLESS, kelvin - 273.15, 8.116 + 1.618e-2 * kelvin, 6),
  ]),
  heatToWarm('stainless-steel', STAINLESS, 1407, 849.37, 2),
  {
    ...{ about: 'S5 heat to liquid stainless steel', source: STAINLESS, unit: 'kJ/kg', published: 1114, tolerance: 6 },
    ours: () => liquidKJPerKg(MATERIALS['stainless-steel']),
  },
  ...[20, 100, 300, 500].flatMap((celsius) => [
    specificHeat('aluminium', ALUMINIUM, celsius, 0.41 * celsius + 903, 6),
    conductivity('aluminium', ALUMINIUM, celsius, 0.07 * celsius + 190, 6),
  ]),
  heatToWarm('aluminium', ALUMINIUM, 480, 484.61, 0.1),
];
