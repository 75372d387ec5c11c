import { TICK_HZ } from '../run/types.ts';
import { type Arc, OFF, PILOT, TRANSFERRED } from './arc.ts';
import type { RigFit } from './rig-fit.ts';
import { SHIELDS } from './rig-fit.ts';
import { TORCH } from './torch-constants.ts';
import type { TorchFitness } from './torch-fitness.ts';
import { happens, type TorchLuck } from './torch-luck.ts';
import type { Usage, Wear } from './wear.ts';

/** The torch's parts and what is used of them. */
export interface TorchParts {
  fit: RigFit;
  fitness: TorchFitness;
  luck: TorchLuck;
  wear: Wear;
  usage: Usage;
}

/** What the torch went through this tick. */
export interface TorchTick {
  heightMm: number;
  currentA: number;
  arcVoltageLimitV: number;
  /** Heat of melt that arrived on its front, J. */
  blowbackJ: number;
}

/** A tip that touches metal where its shield may not, or a torch that is out of order, now and then burns a second arc inside itself. */
export function followDoubleArc(parts: TorchParts, arc: Arc, heightMm: number): void {
  const { luck, fitness, fit } = parts;
  if (arc.phase !== TRANSFERRED) {
    luck.doubleTicks = 0;
    return;
  }
  if (luck.doubleTicks > 0) {
    luck.doubleTicks--;
    return;
  }
  const touching = heightMm <= TORCH.touchMm && !SHIELDS[fit.shield].mayTouch;
  if (happens(luck, fitness.doublesPerS + (touching ? TORCH.touchDoubles : 0))) luck.doubleTicks = TORCH.doubleS * TICK_HZ;
}

/** Share of the arc's power that a double arc keeps from the plate now. */
export function doubleArcShare(luck: TorchLuck): number {
  return luck.doubleTicks > 0 ? TORCH.doubleShare : 0;
}

/** Wear and use of one tick. Nothing of it ever shrinks. */
export function wearTorch(parts: TorchParts, arc: Arc, tick: Readonly<TorchTick>): void {
  const { wear, usage, fitness, luck, fit } = parts;
  if (arc.phase === OFF) return;
  const tickS = 1 / TICK_HZ;
  usage.gasL += fitness.gasLPerS * tickS;
  const strikes = arc.starts + arc.restrikes - usage.starts - usage.restrikes;
  const stops = arc.hardStops - usage.hardStops;
  if (strikes > 0 || stops > 0) {
    usage.starts = arc.starts;
    usage.restrikes = arc.restrikes;
    usage.hardStops = arc.hardStops;
    if (fitness.pilots) {
      wear.electrodePitMm += fitness.wearFactor * (TORCH.pitPerStart * strikes + TORCH.pitPerHardStop * stops);
      wear.boreGrowthMm += TORCH.borePerStrike * strikes;
    }
  }
  if (arc.phase === PILOT) {
    usage.pilotS += tickS;
    wear.electrodePitMm += fitness.wearFactor * TORCH.pitPerPilotS * tickS;
  } else if (arc.phase === TRANSFERRED) {
    usage.arcS += tickS;
    wear.electrodePitMm += fitness.wearFactor * TORCH.pitPerArcS * (tick.currentA / 60) * tickS;
    wear.boreGrowthMm += TORCH.borePerArcS * tickS;
    if (luck.doubleTicks > 0) wear.boreGrowthMm += TORCH.borePerDoubleS * tickS;
    if (arc.voltageV > TORCH.stretchedShare * tick.arcVoltageLimitV) wear.boreGrowthMm += TORCH.borePerStretchedS * tickS;
    if (tick.blowbackJ > 0) {
      const arrivedJ = SHIELDS[fit.shield].sprayShare * tick.blowbackJ;
      wear.boreGrowthMm += TORCH.borePerBlowbackJ * arrivedJ;
      wear.spatterLoad += TORCH.spatterPerBlowbackJ * arrivedJ;
      if (wear.spatterLoad > 1) wear.spatterLoad = 1;
    }
    if (tick.heightMm <= TORCH.touchMm) {
      const perS = SHIELDS[fit.shield].mayTouch ? TORCH.dragPerS : TORCH.wrongDragPerS;
      wear.shieldDamage += perS * tickS;
      if (wear.shieldDamage > 1) wear.shieldDamage = 1;
    }
  }
}
