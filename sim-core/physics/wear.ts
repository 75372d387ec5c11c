/** Wear of the parts of the torch. All of it only grows. */
export interface Wear {
  /** Depth of the pit in the electrode, mm. */
  electrodePitMm: number;
  /** Growth of the nozzle's bore, mm. */
  boreGrowthMm: number;
  /** Damage to the shield, 0 to 1. */
  shieldDamage: number;
  /** Spatter stuck on the front, 0 to 1. */
  spatterLoad: number;
}

export function freshWear(): Wear {
  return { electrodePitMm: 0, boreGrowthMm: 0, shieldDamage: 0, spatterLoad: 0 };
}

/** What was used up in a run, beside wear. */
export interface Usage {
  /** Arcs begun from cold, strikes again with the trigger held, and arcs that were torn off instead of let go. */
  starts: number;
  restrikes: number;
  hardStops: number;
  arcS: number;
  pilotS: number;
  /** Gas at ambient pressure, litres. */
  gasL: number;
}

/** Wear at which a part is spent: pit and bore growth, mm; the shield's damage and spatter are shares. Design defaults. */
export const SPENT = { electrodePitMm: 1.6, boreGrowthMm: 0.3, shieldDamage: 1, spatterLoad: 1 } as const;

/** Spent share of the life of each part, 0 and up. */
export interface SpentLife {
  electrode: number;
  nozzle: number;
  shield: number;
}

export function spentLife(wear: Readonly<Wear>): SpentLife {
  return {
    electrode: wear.electrodePitMm / SPENT.electrodePitMm,
    nozzle: wear.boreGrowthMm / SPENT.boreGrowthMm,
    shield: wear.shieldDamage > wear.spatterLoad ? wear.shieldDamage : wear.spatterLoad,
  };
}

/** Greatest spent share of a part's life; told into the sample, because a number handed back would be allocated. */
export function tellSpentLife(wear: Readonly<Wear>, out: { spentLife: number }): void {
  const pit = wear.electrodePitMm / SPENT.electrodePitMm;
  const bore = wear.boreGrowthMm / SPENT.boreGrowthMm;
  const front = wear.shieldDamage > wear.spatterLoad ? wear.shieldDamage : wear.spatterLoad;
  const inside = pit > bore ? pit : bore;
  out.spentLife = inside > front ? inside : front;
}
