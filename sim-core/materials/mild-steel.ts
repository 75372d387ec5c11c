import type { Material } from './material.ts';

/**
 * Carbon steel. Specific heat and conductivity: EN 1993-1-2:2005 sec. 3.4.1, valid 20 to 1200 degC, held at its last
 * value above; density sec. 3.2.2 (from memory). Latent heat of pure iron and liquid specific heat: CRC Handbook and
 * JANAF tables (from memory). Melting: iron-carbon diagram at 0.2 % C (from memory).
 */
export const MILD_STEEL: Material = {
  id: 'mild-steel',
  densityGPerMm3: 7.85e-3,
  meltingC: 1520,
  latentHeatJPerG: 247,
  superheatJPerG: 206,
  boilingC: 2861,
  specificHeatJPerGK(temperatureC) {
    const c = temperatureC < 20 ? 20 : temperatureC;
    if (c < 600) return (425 + 0.773 * c - 1.69e-3 * c * c + 2.22e-6 * c * c * c) / 1000;
    if (c < 735) return (666 + 13002 / (738 - c)) / 1000;
    if (c < 900) return (545 + 17820 / (c - 731)) / 1000;
    return c < 1520 ? 0.65 : 0.824;
  },
  conductivityWPerMmK(temperatureC) {
    const c = temperatureC < 20 ? 20 : temperatureC;
    return (c < 800 ? 54 - 3.33e-2 * c : 27.3) / 1000;
  },
};
