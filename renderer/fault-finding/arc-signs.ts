import { ARC_STATES, type Sample, type SimulationSetup, TICK_HZ } from '../../sim-core/index.ts';
import { arcWidening, SOFT_TO_SEE } from '../scene/arc-look.ts';

/** What can be seen of a rig that is not right, in the words of the bench. None of them names a cause. */
export const ARC_SIGNS = [
  'soft',
  'wandering',
  'aslant',
  'double-arc',
  'pilot-only',
  'no-pilot',
  'drops-out',
  'hard-start',
] as const;
export type ArcSign = (typeof ARC_SIGNS)[number];

export interface ArcSigns {
  /** Signs that show at this moment, in the order of ARC_SIGNS. */
  readonly now: readonly ArcSign[];
  /** How often each has shown since the start of the run. */
  readonly seen: Readonly<Record<ArcSign, number>>;
  /** To be told of the latest sample, some ten times a second or oftener. */
  look(sample: Readonly<Sample>, trigger: boolean, tick: number): void;
}

const TRANSFERRED = ARC_STATES.indexOf('transferred');
const PILOT = ARC_STATES.indexOf('pilot');
const OFF = ARC_STATES.indexOf('off');

/** Share of the power between the torch's own parts that can be seen and heard. */
const DOUBLE_ARC_SHARE = 0.02;
/** Spread and mean of the arc's own lean over a moment, degrees, that the eye takes for unrest or for a slant. */
const WANDER_DEG = 0.8;
const SLANT_DEG = 2.5;
const LEAN_MEMORY_S = 0.5;
/** A pilot is expected to go over to metal that is this near within this long; gas to be lit within this long. */
const NEAR_MM = 6;
const PILOT_PATIENCE_S = 0.9;
const LIGHT_PATIENCE_S = 1.6;
/** At an edge an arc finds no more metal ahead and goes out by itself, on thick plate a little before the torch is there, mm. */
const EDGE_MM = 5;
/** An arc that comes at the second or a later pull. */
const PULLS = 2;
/** A sign of one moment stays to be read this long, s. */
const STAYS_S = 2.5;

export function createArcSigns(setup: SimulationSetup): ArcSigns {
  const seen = Object.fromEntries(ARC_SIGNS.map((sign) => [sign, 0])) as Record<ArcSign, number>;
  const until = new Map<ArcSign, number>();
  const leans: { tick: number; deg: number }[] = [];
  const soft = arcWidening(setup) > SOFT_TO_SEE;
  let now: ArcSign[] = [];
  let before = { state: OFF, trigger: false };
  let pulledAt = 0;
  let pilotAt: number | null = null;
  let everLit = false;
  let pulls = 0;

  const overPlate = ({ xMm, yMm }: Readonly<Sample>, insideMm = 0) =>
    xMm > insideMm && yMm > insideMm && xMm < setup.lengthMm - insideMm && yMm < setup.widthMm - insideMm;

  function shows(sign: ArcSign, tick: number): void {
    if ((until.get(sign) ?? -1) < tick) seen[sign] += 1;
    until.set(sign, tick + STAYS_S * TICK_HZ);
  }

  function lean(deg: number, tick: number): void {
    leans.push({ tick, deg });
    while (leans.length > 0 && tick - (leans[0]?.tick ?? tick) > LEAN_MEMORY_S * TICK_HZ) leans.shift();
    if (leans.length < 4) return;
    const mean = leans.reduce((sum, one) => sum + one.deg, 0) / leans.length;
    const spread = Math.sqrt(leans.reduce((sum, one) => sum + (one.deg - mean) ** 2, 0) / leans.length);
    if (spread > WANDER_DEG) shows('wandering', tick);
    else if (Math.abs(mean) > SLANT_DEG) shows('aslant', tick);
  }

  return {
    get now() {
      return now;
    },
    seen,
    look(sample, trigger, tick) {
      const state = sample.arcState;
      if (trigger && !before.trigger) {
        pulledAt = tick;
        everLit = false;
        if (sample.standOffMm < NEAR_MM && overPlate(sample)) pulls += 1;
      }
      if (state === PILOT || state === TRANSFERRED) everLit = true;
      if (state === TRANSFERRED) {
        if (before.state !== TRANSFERRED && pulls >= PULLS) shows('hard-start', tick);
        pulls = 0;
        if (soft) shows('soft', tick);
        if (Number.isFinite(sample.arcLeanDeg)) lean(sample.arcLeanDeg, tick);
      } else leans.length = 0;
      if (sample.doubleArcShare > DOUBLE_ARC_SHARE) shows('double-arc', tick);
      pilotAt = state === PILOT && sample.standOffMm < NEAR_MM && overPlate(sample) ? (pilotAt ?? tick) : null;
      if (pilotAt !== null && tick - pilotAt > PILOT_PATIENCE_S * TICK_HZ) shows('pilot-only', tick);
      if (trigger && !everLit && tick - pulledAt > LIGHT_PATIENCE_S * TICK_HZ) shows('no-pilot', tick);
      const lost = before.state === TRANSFERRED && state !== TRANSFERRED && trigger;
      if (lost && sample.standOffMm < NEAR_MM && overPlate(sample, EDGE_MM)) shows('drops-out', tick);
      before = { state, trigger };
      now = ARC_SIGNS.filter((sign) => (until.get(sign) ?? -1) >= tick);
    },
  };
}
