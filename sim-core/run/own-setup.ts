import { fitFor, type RigFit } from '../physics/rig-fit.ts';
import type { SimulationSetup } from './types.ts';

/** A setup with nothing left open. */
export type WholeSetup = Required<SimulationSetup> & { airGap: { fromMm: number; toMm: number } };

/**
 * A copy of a setup that nobody else can change, its fields in one order and what was left out filled in: the same setup gives
 * the same bytes. An air gap from 0 to 0 is none.
 */
export function ownSetup(setup: SimulationSetup): WholeSetup {
  const { airGap = { fromMm: 0, toMm: 0 }, fit = fitFor('cut', setup.currentA) } = setup;
  return {
    material: setup.material,
    thicknessMm: setup.thicknessMm,
    lengthMm: setup.lengthMm,
    widthMm: setup.widthMm,
    cutouts: (setup.cutouts ?? []).map((outline) => outline.map(({ xMm, yMm }) => ({ xMm, yMm }))),
    supports: (setup.supports ?? []).map(({ xMm, yMm }) => ({ xMm, yMm })),
    surface: setup.surface ?? 'bare',
    airGap: { fromMm: airGap.fromMm, toMm: airGap.toMm },
    rig: setup.rig,
    currentA: setup.currentA,
    fit: ownFit(fit),
    seed: setup.seed,
  };
}

function ownFit(fit: RigFit): RigFit {
  const { clamp, wear } = fit;
  return {
    mode: fit.mode,
    nozzle: fit.nozzle,
    shield: fit.shield,
    stack: [...fit.stack],
    supplyBar: fit.supplyBar,
    hoseM: fit.hoseM,
    hoseLeakShare: fit.hoseLeakShare,
    gas: fit.gas,
    clamp: clamp && { xMm: clamp.xMm, yMm: clamp.yMm, surface: clamp.surface },
    wear: {
      electrodePitMm: wear.electrodePitMm,
      boreGrowthMm: wear.boreGrowthMm,
      shieldDamage: wear.shieldDamage,
      spatterLoad: wear.spatterLoad,
    },
  };
}
