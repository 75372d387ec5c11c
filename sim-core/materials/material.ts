import type { MaterialId } from './material-id.ts';

/**
 * A metal as the core sees it. Temperatures in degC here, at the edge; the core works in K above ambient (20 degC).
 * Every figure names its source; 'design default' marks what no allowed source gives.
 */
export interface Material {
  id: MaterialId;
  /** g/mm3, taken constant. */
  densityGPerMm3: number;
  /** Middle of the melting range, degC. */
  meltingC: number;
  latentHeatJPerG: number;
  /** Heat above melting carried by thrown melt, J/g. Design default: 250 K of superheat times the liquid's specific heat. */
  superheatJPerG: number;
  boilingC: number;
  /** J/(g K) at a temperature in degC, solid and liquid. */
  specificHeatJPerGK(temperatureC: number): number;
  /** W/(mm K) at a temperature in degC, solid and liquid. */
  conductivityWPerMmK(temperatureC: number): number;
}

export const AMBIENT_C = 20;
