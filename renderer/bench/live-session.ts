import {
  appendHandTick,
  appendSample,
  createHandLog,
  createSamples,
  createSimulation,
  type Diagnosis,
  type Drill,
  encodeHandLog,
  type HandPose,
  type HandTick,
  quantiseHand,
  type RigChoices,
  type SpeedWindow,
  scoreContextOf,
  scoreRun,
  setupFromDrill,
  storeTrace,
  TICK_HZ,
} from '../../sim-core/index.ts';
import type { HandEvent } from '../input/hand-event.ts';
import { buffersOf, createFramePacker } from './frame-packer.ts';
import { handLimits } from './hand-limits.ts';
import { createHandTrack, ONE_MOVEMENT_MS } from './hand-track.ts';
import { createInputClock } from './input-clock.ts';
import { runUsed } from './run-used.ts';
import type { FromWorker, SteppedTick } from './worker-messages.ts';

/** How often the clock is asked for due ticks, and how often inputs leave for the host, ms. */
const WAKE_MS = 4;
/** Ticks are stepped in one go for no longer than this, ms: what the hand has sent meanwhile must not wait for a long catching up. */
const SLICE_MS = 3;
const CHUNK_MS = 300;
const HEAD_START_MS = 14;

export interface LiveSession {
  hand(events: HandEvent[]): void;
  hold(held: boolean, nowMs: number): void;
  drawn(): void;
  /** The ticks stepped since this was asked last, each with its moments; from the first time on they are noted. */
  watch(): SteppedTick[];
  /** No more ticks; what is left of the inputs goes out. */
  end(): void;
  /** The marks of the ended run. */
  mark(diagnosis: Diagnosis | null): void;
  stop(): void;
}

export interface LiveOptions {
  drill: Drill;
  seed: number;
  choices: RigChoices | null;
  window: SpeedWindow;
  pose: HandPose;
  /** Page clock: its reading now, and how to read it here. */
  nowMs: number;
  now(): number;
  post(message: FromWorker, transfer?: Transferable[]): void;
}

/** A run being cut: steps the core by the clock, keeps its inputs and samples, and scores it at the end. */
export function createLiveSession(options: LiveOptions): LiveSession {
  const { drill, seed, choices, now, post } = options;
  const setup = setupFromDrill(drill, seed, choices);
  const simulation = createSimulation(setup);
  const wearBefore = { ...simulation.wear };
  const limits = handLimits(drill, choices);
  const track = createHandTrack(options.pose, options.nowMs - HEAD_START_MS, limits);
  // Begins a little in the past, so that one tick is due at once and the torch can be drawn where it waits.
  const clock = createInputClock({ tickHz: TICK_HZ, startMs: options.nowMs - HEAD_START_MS });
  const packer = createFramePacker(simulation);
  const log = createHandLog();
  const samples = createSamples();
  const digests: string[] = [];
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  let chunkLog = createHandLog(TICK_HZ);
  let chunkFirst = 0;
  let mayPost = true;
  let postedTick = -1;
  let lastEventMs = Number.NEGATIVE_INFINITY;
  let pose = options.pose;
  /** Ticks that are due and not yet stepped, and whether the next slice of them has been called for. */
  let owed = 0;
  let called = false;
  let watched: SteppedTick[] | null = null;
  const turn = new MessageChannel();
  turn.port1.onmessage = () => {
    called = false;
    wake();
  };

  post({ kind: 'ready', grid: { ...simulation.grid }, tickCount: 0 });

  function stepOne(): void {
    const atMs = clock.tickTimeMs(simulation.tick + 1);
    pose = track.poseAt(atMs);
    quantiseHand(pose, tick);
    appendHandTick(log, tick);
    appendHandTick(chunkLog, tick);
    simulation.step(tick);
    appendSample(samples, simulation.sample);
    if (simulation.tick % TICK_HZ === 0) digests.push(simulation.digest());
    owed -= 1;
    watched?.push({ atMs, waitMs: clock.delayMs, steppedMs: now() });
  }

  function wake(): void {
    const beganMs = now();
    owed += clock.due(beganMs);
    while (owed > 0 && now() - beganMs < SLICE_MS) stepOne();
    if (owed > 0 && !called) {
      called = true;
      turn.port2.postMessage(null);
    }
    postFrame();
  }

  /** Whatever is due by now, without a break. */
  function catchUp(): void {
    owed += clock.due(now());
    while (owed > 0) stepOne();
    postFrame();
  }

  function postFrame(): void {
    if (!mayPost || simulation.tick === postedTick) return;
    mayPost = false;
    postedTick = simulation.tick;
    const hand = Float64Array.of(pose.leanXDeg, pose.leanYDeg, pose.trigger ? 1 : 0);
    const about = { generation: 0, rate: 1, delayMs: clock.delayMs, droppedMs: clock.droppedMs };
    const message = packer.frame(about, hand);
    post(message, buffersOf(message));
  }

  function sendChunk(): void {
    if (chunkLog.length === 0) return;
    const chunk = { firstTick: chunkFirst, tickCount: chunkLog.length, inputs: encodeHandLog(chunkLog) };
    chunkFirst += chunkLog.length;
    chunkLog = createHandLog(TICK_HZ);
    post({ kind: 'chunk', chunk });
  }

  const wakeTimer = setInterval(wake, WAKE_MS);
  const chunkTimer = setInterval(sendChunk, CHUNK_MS);
  const stop = () => {
    clearInterval(wakeTimer);
    clearInterval(chunkTimer);
    turn.port1.close();
  };

  return {
    hand(events) {
      for (const event of events) {
        // Between two events of one movement the way is known only when the second has come.
        const since = event.atMs - lastEventMs;
        clock.noteLateness(now() - (event.rate === null && since < ONE_MOVEMENT_MS ? lastEventMs : event.atMs));
        lastEventMs = event.atMs;
        track.push(event);
      }
      wake();
    },
    hold(held, nowMs) {
      if (!held) {
        clock.resume(nowMs);
        return;
      }
      catchUp();
      clock.pause(nowMs);
      track.rest(nowMs);
    },
    drawn() {
      mayPost = true;
    },
    watch() {
      const noted = watched ?? [];
      watched = [];
      return noted;
    },
    end() {
      stop();
      while (owed > 0) stepOne();
      sendChunk();
    },
    mark(diagnosis) {
      const score = scoreRun(drill, samples, scoreContextOf(simulation, options.window, { choices, diagnosis }));
      post({
        kind: 'finished',
        run: {
          tickCount: log.length,
          inputs: encodeHandLog(log),
          digests,
          diagnosis,
          finalDigest: simulation.digest(),
          score,
          trace: storeTrace(samples),
          used: runUsed(simulation, wearBefore),
        },
      });
    },
    stop,
  };
}
