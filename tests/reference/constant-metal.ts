import type { EnthalpyTable } from '../../sim-core/materials/enthalpy-table.ts';

/** A metal of constant properties without melting: what the closed forms of conduction assume. k in W/(mm K), rhoC in J/(mm3 K). */
export function constantMetal(conductivity: number, rhoC: number): EnthalpyTable {
  return {
    temperatureK: Float64Array.of(0, 1000, 2000),
    conductivity: Float64Array.of(conductivity, conductivity, conductivity),
    perJ: 1 / (1000 * rhoC),
    meltingK: 1e9,
    solidusJPerMm3: 1e9,
    liquidusJPerMm3: 1e9,
    thrownJPerMm3: 1e9,
    greatestDiffusivityMm2PerS: conductivity / rhoC,
  };
}

/** A metal that melts, of constant properties on either side: what the Neumann solution assumes. Rises are K above the start. */
export function meltingMetal(
  conductivity: number,
  solidRhoC: number,
  liquidRhoC: number,
  meltingRise: number,
  latent: number,
): EnthalpyTable {
  const entries = 40000;
  const solidus = solidRhoC * meltingRise;
  const liquidus = solidus + latent;
  const top = liquidus * 3;
  const temperatureK = new Float64Array(entries + 1);
  for (let i = 0; i <= entries; i++) {
    const h = (i / entries) * top;
    temperatureK[i] = h < solidus ? h / solidRhoC : h < liquidus ? meltingRise : meltingRise + (h - liquidus) / liquidRhoC;
  }
  return {
    temperatureK,
    conductivity: new Float64Array(entries + 1).fill(conductivity),
    perJ: entries / top,
    meltingK: meltingRise,
    solidusJPerMm3: solidus,
    liquidusJPerMm3: liquidus,
    thrownJPerMm3: liquidus,
    greatestDiffusivityMm2PerS: conductivity / Math.min(solidRhoC, liquidRhoC),
  };
}
