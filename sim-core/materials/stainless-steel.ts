import type { Material } from './material.ts';

/**
 * Austenitic stainless steel, 304 type. C. S. Kim, 'Thermophysical properties of stainless steels', ANL-75-55 (1975),
 * from memory: cp(s) = 469.4 + 0.1348 T, cp(l) = 775, k(s) = 8.116 + 1.618e-2 T, k(l) = 12.29 + 3.248e-3 T, T in K,
 * melting 1700 K, latent heat 265 kJ/kg, density 7984.1 - 0.26506 T - 1.158e-4 T^2 (taken at 20 degC).
 */
export const STAINLESS_STEEL: Material = {
  id: 'stainless-steel',
  densityGPerMm3: 7.896e-3,
  meltingC: 1427,
  latentHeatJPerG: 265,
  superheatJPerG: 194,
  boilingC: 2800,
  specificHeatJPerGK(temperatureC) {
    const kelvin = (temperatureC < 20 ? 20 : temperatureC) + 273.15;
    return (temperatureC < 1427 ? 469.4 + 0.1348 * kelvin : 775) / 1000;
  },
  conductivityWPerMmK(temperatureC) {
    const kelvin = (temperatureC < 20 ? 20 : temperatureC) + 273.15;
    return (temperatureC < 1427 ? 8.116 + 1.618e-2 * kelvin : 12.29 + 3.248e-3 * kelvin) / 1000;
  },
};
