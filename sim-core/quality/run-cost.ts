import { metalThicknessMm } from '../drill/metal-thickness.ts';
import type { MaterialId } from '../materials/material-id.ts';
import { MATERIALS } from '../materials/materials.ts';
import { abs } from '../math/elementary.ts';
import { signedAreaMm2 } from '../math/plane.ts';
import { spentLife, type Usage, type Wear } from '../physics/wear.ts';
import type { SimulationSetup } from '../run/types.ts';

/** What things cost, in one currency: parts each, gas per m3 at ambient pressure, plate per kg, a station with its person per hour. */
export interface Prices {
  electrode: number;
  nozzle: number;
  shield: number;
  gasPerM3: number;
  platePerKg: Record<MaterialId, number>;
  stationPerHour: number;
}

/** What a run used up. */
export interface RunUse {
  /** Wear before and after. */
  wearBefore: Readonly<Wear>;
  wearAfter: Readonly<Wear>;
  usage: Readonly<Pick<Usage, 'gasL'>>;
  /** Plate that was laid under the torch, kg. */
  plateKg: number;
  material: MaterialId;
  /** Time at the station, min. */
  minutes: number;
}

export const COST_LINES = ['electrode', 'nozzle', 'shield', 'plate', 'gas', 'time'] as const;
export type CostLineId = (typeof COST_LINES)[number];

/** One line of the bill: how much was used, in what, and what that costs. Parts in shares of a new one. */
export interface CostLine {
  id: CostLineId;
  amount: number;
  unit: 'share' | 'kg' | 'm3' | 'min';
  cost: number;
}

export interface RunCost {
  lines: CostLine[];
  total: number;
}

/** The bill of a run at the given prices. */
export function runCost(use: RunUse, prices: Prices): RunCost {
  const before = spentLife(use.wearBefore);
  const after = spentLife(use.wearAfter);
  const part = (id: 'electrode' | 'nozzle' | 'shield'): CostLine => {
    const amount = after[id] - before[id];
    return { id, amount, unit: 'share', cost: amount * prices[id] };
  };
  const gasM3 = use.usage.gasL / 1000;
  const lines: CostLine[] = [
    part('electrode'),
    part('nozzle'),
    part('shield'),
    { id: 'plate', amount: use.plateKg, unit: 'kg', cost: use.plateKg * prices.platePerKg[use.material] },
    { id: 'gas', amount: gasM3, unit: 'm3', cost: gasM3 * prices.gasPerM3 },
    { id: 'time', amount: use.minutes, unit: 'min', cost: (use.minutes / 60) * prices.stationPerHour },
  ];
  let total = 0;
  for (const line of lines) total += line.cost;
  return { lines, total };
}

/** Mass of the plate of a setup, kg: its cutouts are not there, and an air gap weighs nothing. Cutouts must not overlap. */
export function plateMassKg(setup: SimulationSetup): number {
  let areaMm2 = setup.lengthMm * setup.widthMm;
  for (const outline of setup.cutouts ?? []) areaMm2 -= abs(signedAreaMm2(outline));
  return (areaMm2 * metalThicknessMm(setup) * MATERIALS[setup.material].densityGPerMm3) / 1000;
}
