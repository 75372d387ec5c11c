import type { PointMm } from '../run/types.ts';
import { freshWear, type Wear } from './wear.ts';

/** What the source is set to do. 'gaps' keeps the pilot alive where the metal under the jet ends, for mesh and slotted plate. */
export const RIG_MODES = ['cut', 'gaps', 'gouge', 'mark'] as const;
export type RigMode = (typeof RIG_MODES)[number];

/** The parts of the torch's end in their right order, from the handle outward. */
export const PART_IDS = ['electrode', 'swirl-ring', 'nozzle', 'cap', 'shield'] as const;
export type PartId = (typeof PART_IDS)[number];

export const NOZZLE_IDS = ['fine', 'small', 'middle', 'large', 'gouging'] as const;
export type NozzleId = (typeof NOZZLE_IDS)[number];

export const SHIELD_IDS = ['contact', 'open', 'wide'] as const;
export type ShieldId = (typeof SHIELD_IDS)[number];

export const GAS_STATES = ['dry', 'wet', 'oily'] as const;
export type GasState = (typeof GAS_STATES)[number];

/** What lies on the metal, under the clamp or along the cut. */
export const SURFACES = ['bare', 'mill-scale', 'rust', 'paint', 'zinc'] as const;
export type Surface = (typeof SURFACES)[number];

/** An invented nozzle: the currents that its bore is made for, A. */
export interface Nozzle {
  lowA: number;
  highA: number;
  /** Radius of its jet over that of a cutting nozzle at the same current; a wider jet is a softer one. */
  jetWidening: number;
}

/** Design defaults. */
export const NOZZLES: Record<NozzleId, Nozzle> = {
  fine: { lowA: 8, highA: 20, jetWidening: 1.2 },
  small: { lowA: 15, highA: 45, jetWidening: 1 },
  middle: { lowA: 35, highA: 70, jetWidening: 1 },
  large: { lowA: 60, highA: 100, jetWidening: 1 },
  gouging: { lowA: 25, highA: 100, jetWidening: 1.8 },
};

export interface Shield {
  /** Radius of the torch's front, mm: what slides along a guide. */
  frontRadiusMm: number;
  /** Whether the tip may rest on the metal with the arc on. */
  mayTouch: boolean;
  /** Share of the spray on the torch's front that gets past it. */
  sprayShare: number;
}

/** Design defaults. */
export const SHIELDS: Record<ShieldId, Shield> = {
  contact: { frontRadiusMm: 8, mayTouch: true, sprayShare: 1 },
  open: { frontRadiusMm: 9.5, mayTouch: false, sprayShare: 1 },
  wide: { frontRadiusMm: 11, mayTouch: false, sprayShare: 0.15 },
};

/** The return clamp: where it bites, and on what. Beside the plate it holds the bench, which carries what rests on it. */
export interface ReturnClamp extends PointMm {
  surface: Surface;
}

/** How a rig is fitted out and set, as far as the arc feels it. */
export interface RigFit {
  mode: RigMode;
  nozzle: NozzleId;
  shield: ShieldId;
  /** The parts in the order in which they were put in, from the handle outward. */
  stack: PartId[];
  /** Pressure at the regulator with gas flowing, bar. */
  supplyBar: number;
  hoseM: number;
  /** Share of the flow that a damaged hose loses, 0 to 1. */
  hoseLeakShare: number;
  gas: GasState;
  /** null = the clamp hangs nowhere. */
  clamp: ReturnClamp | null;
  /** Wear of the parts at the start. */
  wear: Wear;
}

/** Least and greatest current of the marking mode on every rig, A. Design default. */
export const MARKING_A = { low: 8, high: 20 } as const;

/** Pressure lost per metre of hose, bar. Design default. */
export const HOSE_LOSS_BAR_PER_M = 0.05;
/** Pressure at the torch between which the arc is as it should be, bar. Design default. */
export const TORCH_BAR = { low: 4.6, high: 6 } as const;

/** Pressure at the torch, bar. */
export function torchBar(fit: Pick<RigFit, 'supplyBar' | 'hoseM' | 'hoseLeakShare'>): number {
  const left = (fit.supplyBar - HOSE_LOSS_BAR_PER_M * fit.hoseM) * (1 - fit.hoseLeakShare);
  return left > 0 ? left : 0;
}

/** The pressure to set at the regulator for a length of hose, bar: the middle of the range at the torch, to a tenth. */
export function supplyBarFor(hoseM: number): number {
  const wanted = (TORCH_BAR.low + TORCH_BAR.high) / 2 + HOSE_LOSS_BAR_PER_M * hoseM;
  return ((wanted * 10 + 0.5) | 0) / 10;
}

/** The nozzle for a mode and current, A: the smallest whose range holds it. */
export function nozzleFor(mode: RigMode, currentA: number): NozzleId {
  if (mode === 'gouge') return 'gouging';
  if (mode === 'mark') return 'fine';
  for (const id of ['small', 'middle', 'large'] as const) if (currentA <= NOZZLES[id].highA) return id;
  return 'large';
}

/** A rig with everything as it should be for a mode and current, A, on new parts, the clamp on the bench. */
export function fitFor(mode: RigMode, currentA: number): RigFit {
  const hoseM = 8;
  return {
    mode,
    nozzle: nozzleFor(mode, currentA),
    shield: mode === 'gouge' ? 'wide' : 'contact',
    stack: [...PART_IDS],
    supplyBar: supplyBarFor(hoseM),
    hoseM,
    hoseLeakShare: 0,
    gas: 'dry',
    clamp: { xMm: -50, yMm: -50, surface: 'bare' },
    wear: freshWear(),
  };
}

/** Currents a rig can be set to in a mode, A. */
export function dialOf(rig: { dialMinA: number; dialMaxA: number }, mode: RigMode): { lowA: number; highA: number } {
  return mode === 'mark' ? { lowA: MARKING_A.low, highA: MARKING_A.high } : { lowA: rig.dialMinA, highA: rig.dialMaxA };
}
