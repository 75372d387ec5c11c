import {
  ANGLE_QUANTUM_DEG,
  createReplay,
  type Drill,
  decodeHandLog,
  type HandTick,
  type RigChoices,
  readHandTick,
  setupFromDrill,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { measureRun } from '../review/measure-run.ts';
import { buffersOf, createFramePacker } from './frame-packer.ts';
import type { FromWorker, RecordedDigests } from './worker-messages.ts';

/** Ticks simulated between two looks at the mailbox while the run is rebuilt, and how often a playing replay moves on, ms. */
const SLICE_TICKS = 480;
const PLAY_MS = 8;

export interface ReplaySession {
  seek(tick: number, asked: number): void;
  play(rate: number): void;
  drawn(): void;
  stop(): void;
}

export interface ReplayOptions {
  drill: Drill;
  seed: number;
  choices: RigChoices | null;
  inputs: Uint8Array;
  /** What was recorded with the run; null where there is nothing to compare. */
  recorded: RecordedDigests | null;
  now(): number;
  post(message: FromWorker, transfer?: Transferable[]): void;
}

/** A recorded run: rebuilt from its inputs, compared with its digests, then shown at any moment and speed. */
export function createReplaySession(options: ReplayOptions): ReplaySession {
  const { now, post } = options;
  const log = decodeHandLog(options.inputs);
  const replay = createReplay({ setup: setupFromDrill(options.drill, options.seed, options.choices), log });
  const { simulation } = replay;
  const wearBefore = { ...simulation.wear };
  const packer = createFramePacker(simulation);
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  let built = false;
  let stopped = false;
  let rate = 0;
  let playFrom = { ms: 0, tick: 0 };
  let generation = 0;
  let mayPost = true;
  let owed = false;
  /** The last moment that was asked for before the run stood; it is shown when it does. */
  let awaited: { tick: number; asked: number } | null = null;

  post({ kind: 'ready', grid: { ...simulation.grid }, tickCount: replay.tickCount });

  function frame(): void {
    if (!mayPost) {
      owed = true;
      return;
    }
    mayPost = false;
    owed = false;
    if (simulation.tick > 0) readHandTick(log, simulation.tick - 1, tick);
    const hand = Float64Array.of(tick.leanX * ANGLE_QUANTUM_DEG, tick.leanY * ANGLE_QUANTUM_DEG, tick.trigger);
    const message = packer.frame({ generation, rate, delayMs: 0, droppedMs: 0 }, hand);
    post(message, buffersOf(message));
  }

  function verdict(): 'same' | 'different' | null {
    const { recorded } = options;
    if (recorded === null) return null;
    const same =
      recorded.finalDigest === replay.finalDigest &&
      recorded.digests.length === replay.digests.length &&
      recorded.digests.every((digest, n) => digest === replay.digests[n]);
    return same ? 'same' : 'different';
  }

  function build(): void {
    if (stopped) return;
    const more = replay.advance(SLICE_TICKS);
    built = !more;
    post({ kind: 'built', ticks: replay.reached, tickCount: replay.tickCount, verdict: built ? verdict() : null });
    if (!built) {
      setTimeout(build, 0);
      return;
    }
    post({ kind: 'measured', measured: measureRun(options.drill, replay, wearBefore) });
    replay.seek(0);
    packer.wholePlate();
    generation += 1;
    if (awaited === null) frame();
    else seek(awaited.tick, awaited.asked);
  }
  setTimeout(build, 0);

  function seek(wanted: number, asked: number): void {
    if (!built) {
      awaited = { tick: wanted, asked };
      return;
    }
    const started = now();
    const target = Math.max(0, Math.min(replay.tickCount, Math.round(wanted)));
    // A step of a tick or two is motion; anything else is a jump, and sparks in flight do not survive it.
    const step = target - simulation.tick;
    if (step < 0 || step > TICK_HZ / 10) {
      generation += 1;
      // Metal in flight is no part of a kept state: at least one tick is stepped, so that it is that of the moment.
      replay.seek(Math.max(0, target - 1));
    }
    replay.seek(target);
    playFrom = { ms: now(), tick: target };
    frame();
    post({ kind: 'sought', asked, tick: target, tookMs: now() - started });
  }

  function play(nextRate: number): void {
    rate = nextRate;
    playFrom = { ms: now(), tick: simulation.tick };
    frame();
  }

  const timer = setInterval(() => {
    // Backward every frame is simulated anew from a snapshot: not more of them than the page draws.
    if (!built || rate === 0 || (rate < 0 && !mayPost)) return;
    const ticks = playFrom.tick + Math.floor(((now() - playFrom.ms) / 1000) * TICK_HZ * rate);
    const wanted = Math.max(0, Math.min(replay.tickCount, ticks));
    if (rate > 0 ? wanted > simulation.tick : wanted < simulation.tick) {
      if (rate < 0) generation += 1;
      replay.seek(wanted);
    }
    if (wanted === (rate > 0 ? replay.tickCount : 0)) rate = 0;
    frame();
  }, PLAY_MS);

  return {
    seek,
    play,
    drawn() {
      mayPost = true;
      if (owed) frame();
    },
    stop() {
      stopped = true;
      clearInterval(timer);
    },
  };
}
