import { AMBIENT_C, type Material } from './material.ts';

/**
 * Enthalpy per volume above ambient, tabulated both ways for the hot loops. Temperatures are K above ambient, J/mm3.
 * Melting is spread over a narrow range of enthalpy at constant temperature, as the enthalpy method asks.
 */
export interface EnthalpyTable {
  /** Temperature rise, K, at enthalpy index / perJ; linear between entries. */
  temperatureK: Float64Array;
  /** Conductivity, W/(mm K), at the same entries. */
  conductivity: Float64Array;
  /** Entries per J/mm3. */
  perJ: number;
  /** K above ambient. */
  meltingK: number;
  /** Enthalpy of solid at melting, of liquid at melting, and of melt as it is thrown out, J/mm3. */
  solidusJPerMm3: number;
  liquidusJPerMm3: number;
  thrownJPerMm3: number;
  /** Greatest diffusivity met, mm2/s: sets the stable step. */
  greatestDiffusivityMm2PerS: number;
}

const ENTRIES = 2048;
const STEP_K = 0.5;
const HOTTEST_ABOVE_MELTING_K = 1500;

/** Integrates the material's specific heat by the midpoint rule in steps of 0.5 K and inverts it. */
export function enthalpyTable(material: Material): EnthalpyTable {
  const { densityGPerMm3: density } = material;
  const meltingK = material.meltingC - AMBIENT_C;
  const solidus = enthalpyOfHeating(material, 0, meltingK) * density;
  const liquidus = solidus + material.latentHeatJPerG * density;
  const top = liquidus + enthalpyOfHeating(material, meltingK, meltingK + HOTTEST_ABOVE_MELTING_K) * density;
  const perJ = (ENTRIES - 1) / top;
  const temperatureK = new Float64Array(ENTRIES + 1);
  const conductivity = new Float64Array(ENTRIES + 1);
  let riseK = 0;
  let reached = 0;
  let greatest = 0;
  for (let entry = 0; entry <= ENTRIES; entry++) {
    const wanted = entry / perJ;
    if (wanted > solidus && wanted < liquidus) {
      riseK = meltingK;
      reached = wanted;
    } else {
      if (wanted >= liquidus && reached < liquidus) {
        reached = liquidus;
        riseK = meltingK;
      }
      while (reached < wanted) {
        const heat = material.specificHeatJPerGK(AMBIENT_C + riseK + STEP_K / 2) * density * STEP_K;
        const share = reached + heat > wanted ? (wanted - reached) / heat : 1;
        reached += heat * share;
        riseK += STEP_K * share;
      }
    }
    temperatureK[entry] = riseK;
    conductivity[entry] = material.conductivityWPerMmK(AMBIENT_C + riseK);
    const here = conductivity[entry]! / (density * material.specificHeatJPerGK(AMBIENT_C + riseK));
    if (here > greatest) greatest = here;
  }
  return {
    temperatureK,
    conductivity,
    perJ,
    meltingK,
    solidusJPerMm3: solidus,
    liquidusJPerMm3: liquidus,
    thrownJPerMm3: liquidus + material.superheatJPerG * density,
    greatestDiffusivityMm2PerS: greatest,
  };
}

/** Heat to warm one gram from one rise above ambient to another without melting, J/g. */
export function enthalpyOfHeating(material: Material, fromK: number, toK: number): number {
  let sum = 0;
  for (let rise = fromK; rise < toK; rise += STEP_K) {
    const step = rise + STEP_K > toK ? toK - rise : STEP_K;
    sum += material.specificHeatJPerGK(AMBIENT_C + rise + step / 2) * step;
  }
  return sum;
}

/** Temperature rise, K, of metal holding so many J/mm3. */
export function temperatureAt(table: EnthalpyTable, jPerMm3: number): number {
  const place = jPerMm3 * table.perJ;
  const last = table.temperatureK.length - 2;
  const entry = place < last ? (place > 0 ? place | 0 : 0) : last;
  const low = table.temperatureK[entry]!;
  return low + (place - entry) * (table.temperatureK[entry + 1]! - low);
}
