import { ARC_STATES, type Sample, type SimulationSetup, TICK_HZ } from '../../sim-core/index.ts';
import { type SoundMoment, type SoundParameters, silence, soundOf, soundRig } from './sound-of.ts';

const TRANSFERRED = ARC_STATES.indexOf('transferred');
/** A step of time that is no playing any more but a jump, ticks. */
const JUMP_TICKS = TICK_HZ;

/** Follows a run from sample to sample and says how it sounds. */
export interface SoundFollower {
  /** The latest moment; refilled by `follow`, never replaced. */
  readonly sound: Readonly<SoundParameters>;
  /** To be told of every sample that reaches the page. An arc that goes out under a held trigger is lost, otherwise it was let go. */
  follow(sample: Readonly<Sample>, trigger: boolean, tick: number): void;
}

export function createSoundFollower(setup: SimulationSetup): SoundFollower {
  const rig = soundRig(setup);
  const sound = silence();
  const moment: SoundMoment = { inStateS: 0, sinceLostS: Number.POSITIVE_INFINITY, sinceOutS: Number.POSITIVE_INFINITY };
  let state = 0;
  let stateTick = 0;
  let lostTick = Number.NEGATIVE_INFINITY;
  let outTick = Number.NEGATIVE_INFINITY;
  let lastTick = 0;
  return {
    sound,
    follow(sample, trigger, tick) {
      const jumped = tick < lastTick || tick - lastTick > JUMP_TICKS;
      if (jumped) {
        lostTick = Number.NEGATIVE_INFINITY;
        outTick = Number.NEGATIVE_INFINITY;
      }
      if (sample.arcState !== state || jumped) {
        if (!jumped && state === TRANSFERRED) {
          if (trigger) lostTick = tick;
          else outTick = tick;
        }
        state = sample.arcState;
        stateTick = tick;
      }
      lastTick = tick;
      moment.inStateS = (tick - stateTick) / TICK_HZ;
      moment.sinceLostS = (tick - lostTick) / TICK_HZ;
      moment.sinceOutS = (tick - outTick) / TICK_HZ;
      soundOf(sample, rig, moment, sound);
    },
  };
}
