import { type COST_LINES, plateMassKg, runCost, type Simulation, TICK_HZ, type Wear } from '../../sim-core/index.ts';

/** What a run used up, as it is kept with it: torch parts in shares of a new one. */
export interface RunUsed {
  electrode: number;
  nozzle: number;
  shield: number;
  plateKg: number;
  gasM3: number;
  minutes: number;
}

/** Only the amounts of the bill are wanted, whatever things cost. */
const FREE = {
  electrode: 0,
  nozzle: 0,
  shield: 0,
  gasPerM3: 0,
  platePerKg: { 'mild-steel': 0, 'stainless-steel': 0, aluminium: 0 },
  stationPerHour: 0,
};

/** Reads it off a simulation that has come to its end; `wearBefore` is the wear it began with. */
export function runUsed({ setup, wear, usage, tick }: Simulation, wearBefore: Readonly<Wear>): RunUsed {
  const use = {
    wearBefore,
    wearAfter: { ...wear },
    usage: { gasL: usage.gasL },
    plateKg: plateMassKg(setup),
    material: setup.material,
    minutes: tick / TICK_HZ / 60,
  };
  const amounts = Object.fromEntries(runCost(use, FREE).lines.map(({ id, amount }) => [id, amount]));
  const of = (id: (typeof COST_LINES)[number]) => Math.max(0, amounts[id] ?? 0);
  return {
    electrode: of('electrode'),
    nozzle: of('nozzle'),
    shield: of('shield'),
    plateKg: of('plate'),
    gasM3: of('gas'),
    minutes: of('time'),
  };
}
