import type {
  Diagnosis,
  Drill,
  FallenPiece,
  FieldGrid,
  HandPose,
  RigChoices,
  Score,
  SpeedWindow,
  StoredTrace,
} from '../../sim-core/index.ts';
import type { HandEvent } from '../input/hand-event.ts';
import type { MeasuredRun } from '../review/measure-run.ts';
import type { RunUsed } from './run-used.ts';

/**
 * Everything that crosses between the page and the simulation worker. Times are ms of the page's `performance.now()`; the worker
 * converts with `timeOrigin`. Bytes and arrays are transferred, not copied.
 */
export type ToWorker =
  | { kind: 'window'; drill: Drill; known: SpeedWindow | null }
  | { kind: 'cut'; drill: Drill; seed: number; choices: RigChoices | null; pose: HandPose; nowMs: number; timeOriginMs: number }
  | { kind: 'hand'; events: HandEvent[] }
  | { kind: 'hold'; held: boolean; nowMs: number }
  /** The page has drawn the last frame and can take another. */
  | { kind: 'drawn' }
  /** How late ticks are stepped: asked by the benchmark. */
  | { kind: 'watch' }
  /** The hand is done: no tick comes after this. */
  | { kind: 'end' }
  /** What was said of the rig; the marks come after it. */
  | { kind: 'mark'; diagnosis: Diagnosis | null }
  | {
      kind: 'replay';
      drill: Drill;
      seed: number;
      choices: RigChoices | null;
      inputs: Uint8Array;
      recorded: RecordedDigests | null;
    }
  | { kind: 'seek'; tick: number; asked: number }
  | { kind: 'play'; rate: number }
  | { kind: 'stop' };

/** What a run came out as when it was cut: the digest of every full second, and of the end. */
export interface RecordedDigests {
  digests: string[];
  finalDigest: string;
}

/** Ticks of the hand since the last chunk, encoded, in order. */
export interface HandChunk {
  firstTick: number;
  tickCount: number;
  inputs: Uint8Array;
}

/** A tick that was stepped: the moment of the hand that it stands for, how long it waits on purpose, and when it was stepped. */
export interface SteppedTick {
  atMs: number;
  waitMs: number;
  steppedMs: number;
}

/** State of one tick and what changed in the metal since the last frame. Arrays follow the order of SAMPLE_FIELDS and EJECTA_FIELDS. */
export interface FrameMessage {
  kind: 'frame';
  tick: number;
  generation: number;
  rate: number;
  sample: Float64Array;
  ejecta: Float64Array;
  hand: Float64Array;
  fallen: FallenPiece[];
  tiles: Int32Array;
  topDepthMm: Float32Array;
  bottomRiseMm: Float32Array;
  pieceOf: Uint8Array;
  temperatureC: Float32Array;
  /** How far behind the clock the simulation runs to let input arrive, and wall time given up after stalls, ms. */
  delayMs: number;
  droppedMs: number;
}

export interface FinishedRun {
  diagnosis: Diagnosis | null;
  tickCount: number;
  inputs: Uint8Array;
  digests: string[];
  finalDigest: string;
  score: Score;
  trace: StoredTrace;
  used: RunUsed;
}

export type FromWorker =
  | { kind: 'window'; window: SpeedWindow }
  | { kind: 'ready'; grid: FieldGrid; tickCount: number }
  | FrameMessage
  | { kind: 'chunk'; chunk: HandChunk }
  | { kind: 'watched'; steps: SteppedTick[] }
  | { kind: 'finished'; run: FinishedRun }
  | { kind: 'built'; ticks: number; tickCount: number; verdict: 'same' | 'different' | null }
  /** What a rebuilt run came to; told once, when it is built. */
  | { kind: 'measured'; measured: MeasuredRun }
  /** A seek has been carried out; its frame went before. */
  | { kind: 'sought'; asked: number; tick: number; tookMs: number }
  | { kind: 'failed'; message: string };
