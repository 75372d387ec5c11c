import { type HandLog, readHandTick } from './hand-input.ts';
import { appendSample, createSamples } from './samples.ts';
import { createSimulation, type KeyedSimulation } from './simulation.ts';
import type { Snapshot } from './snapshot.ts';
import { type HandTick, type Samples, type SimulationSetup, TICK_HZ } from './types.ts';

/** A run as it was made: the setup and every tick of the hand. */
export interface Recording {
  setup: SimulationSetup;
  log: HandLog;
}

/** Ticks between keyframes: one second. Seeking simulates at most this many. */
export const KEYFRAME_TICKS = TICK_HZ;

/**
 * A recording played again by the core itself. It is simulated forward once (`advance`), which leaves a keyframe every
 * second; after that any tick reached is a seek away, forward or back, with the same state byte for byte.
 */
export interface Replay {
  /** Ticks in the recording. */
  readonly tickCount: number;
  /** Ticks simulated so far from the start; seeking works up to here. */
  readonly reached: number;
  /** The state at the tick last sought or advanced to. */
  readonly simulation: KeyedSimulation;
  /** Samples of all ticks reached. */
  readonly samples: Samples;
  /** Digest at each full second reached, and at the end. */
  readonly digests: readonly string[];
  /** Digest after the last tick; empty until the end is reached. */
  readonly finalDigest: string;
  /** Simulates up to so many further ticks of the frontier; false once the end is reached. */
  advance(maxTicks: number): boolean;
  /** Moves `simulation` to a tick, 0 to `reached`. Throws RangeError beyond. */
  seek(tick: number): void;
}

export function createReplay(recording: Recording): Replay {
  const simulation = createSimulation(recording.setup);
  const samples = createSamples(recording.log.length + 1);
  const digests: string[] = [];
  const keyframes: Snapshot[] = [simulation.snapshot()];
  const input: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const tickCount = recording.log.length;
  let reached = 0;
  let finalDigest = tickCount === 0 ? simulation.digest() : '';

  function seek(tick: number): void {
    if (!(tick >= 0 && tick <= reached && tick % 1 === 0))
      throw new RangeError(`There is no tick ${tick} yet: 0 to ${reached} are there.`);
    const key = (tick - (tick % KEYFRAME_TICKS)) / KEYFRAME_TICKS;
    const ahead = tick - simulation.tick;
    // Going forward a little is cheaper on foot than by keyframe.
    if (!(ahead >= 0 && ahead <= tick - key * KEYFRAME_TICKS)) simulation.putBack(keyframes[key]!);
    while (simulation.tick < tick) simulation.step(readHandTick(recording.log, simulation.tick, input));
  }

  return {
    tickCount,
    simulation,
    samples,
    digests,
    get reached() {
      return reached;
    },
    get finalDigest() {
      return finalDigest;
    },
    advance(maxTicks) {
      seek(reached);
      const stop = reached + maxTicks < tickCount ? reached + maxTicks : tickCount;
      while (reached < stop) {
        simulation.step(readHandTick(recording.log, reached, input));
        reached++;
        appendSample(samples, simulation.sample);
        if (reached % KEYFRAME_TICKS !== 0) continue;
        keyframes.push(simulation.snapshot());
        digests.push(simulation.digest());
      }
      if (reached === tickCount && finalDigest === '') finalDigest = simulation.digest();
      return reached < tickCount;
    },
    seek,
  };
}
