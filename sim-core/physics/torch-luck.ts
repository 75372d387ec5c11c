import { atan, DEG_PER_RAD, RAD_PER_DEG } from '../math/elementary.ts';
import { nextNormal, nextUnit } from '../math/random.ts';
import { TICK_HZ } from '../run/types.ts';
import { TORCH } from './torch-constants.ts';
import type { TorchFitness } from './torch-fitness.ts';

/** What chance has made of the torch: its seeded counter, where the arc wanders to, as tangents, and ticks of the double arc that are left. */
export interface TorchLuck {
  counter: number;
  wanderX: number;
  wanderY: number;
  /** Side to which a worn bore leans the arc, a unit vector. */
  sideX: number;
  sideY: number;
  doubleTicks: number;
  /** How far the arc leans off the torch's axis, as tangents and as an angle, deg. */
  offX: number;
  offY: number;
  offDeg: number;
}

export function createTorchLuck(seed: number): TorchLuck {
  const luck: TorchLuck = {
    counter: seed | 0,
    wanderX: 0,
    wanderY: 0,
    sideX: 1,
    sideY: 0,
    doubleTicks: 0,
    offX: 0,
    offY: 0,
    offDeg: 0,
  };
  // A direction without sines: a point of the square that lies in the ring.
  for (let tries = 0; tries < 32; tries++) {
    const x = 2 * nextUnit(luck) - 1;
    const y = 2 * nextUnit(luck) - 1;
    const length = Math.sqrt(x * x + y * y);
    if (length < 0.2 || length > 1) continue;
    luck.sideX = x / length;
    luck.sideY = y / length;
    break;
  }
  return luck;
}

/** True this tick with so many a second. Draws only where there is a chance at all. */
export function happens(luck: TorchLuck, perS: number): boolean {
  return perS > 0 && nextUnit(luck) * TICK_HZ < perS;
}

/** True with a share of 0 to 1. */
export function fallsTo(luck: TorchLuck, share: number): boolean {
  return share > 0 && nextUnit(luck) < share;
}

/**
 * One tick of where the arc points: a walk that is drawn back to the middle, of so many degrees rms, and the lean of a worn
 * bore. Told in the record: numbers handed back would be allocated, tick by tick.
 */
export function aimArc(luck: TorchLuck, fitness: TorchFitness): void {
  if (fitness.wanderDeg <= 0 && fitness.boreTan === 0) return;
  if (fitness.wanderDeg > 0) {
    const keep = 1 - 1 / (TORCH.wanderS * TICK_HZ);
    const kick = fitness.wanderDeg * RAD_PER_DEG * Math.sqrt(1 - keep * keep);
    luck.wanderX = keep * luck.wanderX + kick * nextNormal(luck);
    luck.wanderY = keep * luck.wanderY + kick * nextNormal(luck);
  }
  luck.offX = luck.wanderX + fitness.boreTan * luck.sideX;
  luck.offY = luck.wanderY + fitness.boreTan * luck.sideY;
  luck.offDeg = atan(Math.sqrt(luck.offX * luck.offX + luck.offY * luck.offY)) * DEG_PER_RAD;
}
