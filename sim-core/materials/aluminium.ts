import type { Material } from './material.ts';

/**
 * Aluminium alloy of the 3xxx and 6xxx series. EN 1999-1-2 sec. 3.3.2 (from memory): c = 0.41 theta + 903 J/(kg K),
 * k = 0.07 theta + 190 W/(m K), valid to 500 degC and carried on to melting. Melting range 582 to 652 degC and density:
 * producer's public table for 6061; latent heat 387 kJ/kg (6056, a published table for laser welding of it).
 * Liquid: specific heat 1.18 J/(g K), conductivity 90 W/(m K), boiling 2519 degC, from memory with low confidence.
 */
export const ALUMINIUM: Material = {
  id: 'aluminium',
  densityGPerMm3: 2.7e-3,
  meltingC: 630,
  latentHeatJPerG: 387,
  superheatJPerG: 295,
  boilingC: 2519,
  specificHeatJPerGK(temperatureC) {
    const c = temperatureC < 20 ? 20 : temperatureC;
    return c < 630 ? (903 + 0.41 * c) / 1000 : 1.18;
  },
  conductivityWPerMmK(temperatureC) {
    const c = temperatureC < 20 ? 20 : temperatureC;
    return (c < 630 ? 190 + 0.07 * c : 90) / 1000;
  },
};
