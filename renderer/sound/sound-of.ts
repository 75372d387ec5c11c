import { ARC_STATES, RIGS, type Sample, type SimulationSetup, torchBar } from '../../sim-core/index.ts';
import { SOUND, type SoundLayer } from './sound-constants.ts';

const PRE_FLOW = ARC_STATES.indexOf('pre-flow');
const PILOT = ARC_STATES.indexOf('pilot');
const TRANSFERRED = ARC_STATES.indexOf('transferred');
const POST_FLOW = ARC_STATES.indexOf('post-flow');

/** What of the rig is heard: fixed for a run. */
export interface SoundRig {
  /** Gas at the torch over what hisses in full, 0 to 1. */
  gasShare: number;
  /** Root of the current over 100 A, 0 to 1. */
  currentRoot: number;
  /** Arc voltage above which the source lets go, V. */
  limitV: number;
}

export function soundRig(setup: SimulationSetup): SoundRig {
  return {
    gasShare: setup.fit ? share(torchBar(setup.fit) / SOUND.fullGasBar) : 1,
    currentRoot: Math.sqrt(share(setup.currentA / 100)),
    limitV: RIGS[setup.rig].arcVoltageLimitV,
  };
}

/** What a sample does not say of itself, s: time in the arc's state, and since the arc was last lost or let go (Infinity = never). */
export interface SoundMoment {
  inStateS: number;
  sinceLostS: number;
  sinceOutS: number;
}

/** One moment of sound: a level of each layer, 0 (silent, exactly) to 1, and how the arc itself sounds. */
export interface SoundParameters extends Record<SoundLayer, number> {
  /** Pitch of the arc, Hz; edge of its noise, Hz; roughness, 0 to 1. They keep their value while there is no arc. */
  toneHz: number;
  brightHz: number;
  roughness: number;
  /** Arc voltage, V; NaN while there is none. */
  voltageV: number;
}

export function silence(): SoundParameters {
  return {
    gas: 0,
    pilot: 0,
    arc: 0,
    under: 0,
    spray: 0,
    double: 0,
    lost: 0,
    out: 0,
    toneHz: SOUND.toneHz,
    brightHz: SOUND.brightHz,
    roughness: SOUND.roughShort,
    voltageV: Number.NaN,
  };
}

function share(value: number): number {
  return value > 0 ? Math.min(1, value) : 0;
}

/** A rate of thrown metal; a trace of an old run may lack it. */
function metal(mm3PerS: number): number {
  return Number.isFinite(mm3PerS) ? Math.max(0, mm3PerS) : 0;
}

/** What is too faint to be heard is not there at all, so that 'heard' and 'shown' cannot part. */
function heard(level: number): number {
  return level > SOUND.audible ? Math.min(1, level) : 0;
}

/** Sound of a moment, written into `out`: a pure function of the sample, the rig and the moment; it makes nothing new. */
export function soundOf(
  sample: Readonly<Sample>,
  rig: Readonly<SoundRig>,
  moment: Readonly<SoundMoment>,
  out: SoundParameters,
): void {
  const state = sample.arcState;
  const burns = state === TRANSFERRED && sample.arcVoltageV > 0;
  const flow =
    state === PRE_FLOW
      ? share(moment.inStateS / SOUND.gasRiseS)
      : state === PILOT
        ? 1
        : burns
          ? SOUND.gasBesideArc
          : state === POST_FLOW
            ? 1 - share(moment.inStateS / SOUND.gasFadeS)
            : 0;
  out.gas = heard(rig.gasShare * flow);
  out.pilot = state === PILOT ? 1 : 0;
  const double = sample.doubleArcShare > SOUND.doubleLeast ? share(sample.doubleArcShare) : 0;
  out.double = double > 0 ? SOUND.doubleLow + SOUND.doubleMore * double : 0;
  out.lost = heard(1 - share(moment.sinceLostS / SOUND.lostS));
  out.out = heard(1 - share(moment.sinceOutS / SOUND.outS));
  out.voltageV = burns ? sample.arcVoltageV : Number.NaN;
  if (!burns) {
    out.arc = 0;
    out.under = 0;
    out.spray = 0;
    return;
  }
  const long = share((sample.arcVoltageV - SOUND.shortArcV) / (rig.limitV - SOUND.shortArcV));
  const under = metal(sample.underMm3PerS);
  const top = metal(sample.topMm3PerS);
  const through = share(sample.throughFraction);
  // A jet that meets no more metal is open too.
  const open = Math.max(through, under / (under + top + SOUND.faintMm3PerS));
  const wander = share(Math.abs(sample.arcLeanDeg) / SOUND.roughWanderDeg);
  out.arc = SOUND.arcLow + SOUND.arcCurrent * rig.currentRoot;
  out.toneHz = SOUND.toneHz * (Math.min(SOUND.highestVoltageV, sample.arcVoltageV) / SOUND.toneVoltageV) ** SOUND.tonePower;
  out.roughness = share(
    SOUND.roughShort + SOUND.roughLong * long + SOUND.roughWander * wander + (double > 0 ? SOUND.roughDouble : 0),
  );
  out.brightHz = (SOUND.brightHz + SOUND.brightLongHz * long) * (1 - SOUND.brightOpenShare * open);
  out.under = heard(open * (SOUND.underOpen + SOUND.underHollow * through));
  out.spray = heard(Math.sqrt(share((top - SOUND.faintMm3PerS) / SOUND.fullSprayMm3PerS)));
}
