import type { Hand } from '../../electron/contract.ts';
import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  decodeHandLog,
  encodeHandLog,
  type HandScale,
  type HandTick,
  type RigChoices,
  readHandTick,
  toBase64,
} from '../../sim-core/index.ts';
import { callHost, HostError } from '../app/host-client.ts';
import type { FinishedRun, HandChunk } from './worker-messages.ts';

/** As CHUNK_LIMIT_TICKS of the contract. */
const MOST_TICKS = 4800;

export interface RecorderOptions {
  drillId: string;
  drillHash: string;
  seed: number;
  personId: string | null;
  /** The run counts as an attempt of this assignment. */
  assignmentId: string | null;
  /** What was chosen in the rig check; null where the rig stood ready. */
  choices: RigChoices | null;
  /** Something could not be written; the run goes on and is tried again. */
  onTrouble(error: unknown): void;
  /** What could not be written, or waited long for its answer, is on disk by now. */
  onRecovered?(): void;
  /** How far the host is with marking an assessment, which it cuts again itself; not called where it is done at once. */
  onMarking?(marking: Marking): void;
}

export interface Marking {
  doneTicks: number;
  totalTicks: number;
}

/** A chunk that waits this long for its answer is told of: a host that was suspended refuses nothing, ms. */
const LATE_MS = 5000;

/** Between two questions how far the marking is, ms. */
const ASK_EVERY_MS = 400;

/**
 * Hands a run over to the host while it is being cut. Chunks wait here until the host has acknowledged them, in order. Nothing is begun before the trigger was pressed.
 */
export interface RunRecorder {
  readonly begun: boolean;
  begin(hand: Hand, scale: HandScale | null): void;
  /** What it was begun with. */
  readonly hand: Hand;
  readonly handScale: HandScale | null;
  chunk(chunk: HandChunk): void;
  /** Id under which the run is kept. Throws HostError where it could not be. */
  finish(run: FinishedRun): Promise<string>;
  /** Given up: what was sent stays, marked so. */
  abandon(): Promise<void>;
}

export function createRunRecorder(options: RecorderOptions): RunRecorder {
  const waiting: HandChunk[] = [];
  let tried: (HandChunk & { sequence: number }) | null = null;
  let sequence = 0;
  let hand: Hand = { kind: 'mouse', name: 'mouse' };
  let handScale: HandScale | null = null;
  let runId: Promise<string> | null = null;
  let sending: Promise<void> | null = null;
  let troubled = false;
  let again = () => Promise.resolve('');

  /** What has not been tried yet, as one chunk: on a machine whose page is slow to answer, the chunks grow, not the queue. */
  function gather(): typeof tried {
    const first = waiting[0];
    if (first === undefined) return null;
    const log = createHandLog(first.tickCount);
    const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
    let taken = 0;
    for (const chunk of waiting) {
      if (taken > 0 && log.length + chunk.tickCount > MOST_TICKS) break;
      const part = decodeHandLog(chunk.inputs);
      for (let n = 0; n < part.length; n += 1) appendHandTick(log, readHandTick(part, n, tick));
      taken += 1;
    }
    waiting.splice(0, taken);
    const gathered = { sequence, firstTick: first.firstTick, tickCount: log.length, inputs: encodeHandLog(log) };
    sequence += 1;
    return gathered;
  }

  async function drain(): Promise<void> {
    if (runId === null) return;
    const id = await runId;
    // One that was tried and not acknowledged goes again unchanged; only then may the next be made.
    for (tried ??= gather(); tried !== null; tried = gather()) {
      const { firstTick, tickCount, inputs } = tried;
      const late = setTimeout(() => trouble(new HostError('unreachable', 'The host does not answer.')), LATE_MS);
      await callHost('appendToRun', {
        runId: id,
        sequence: tried.sequence,
        firstTick,
        tickCount,
        inputs: toBase64(inputs),
      }).finally(() => clearTimeout(late));
      if (troubled) options.onRecovered?.();
      troubled = false;
    }
  }

  function trouble(error: unknown): void {
    troubled = true;
    options.onTrouble(error);
  }

  /** One sender at a time; a failure ends it and the next chunk starts it again. */
  function send(): Promise<void> {
    sending ??= drain().finally(() => {
      sending = null;
    });
    return sending;
  }

  /** Asks how far the marking is until it is over. */
  async function watchMarking(id: string, isOver: () => boolean): Promise<void> {
    const { onMarking } = options;
    while (onMarking && !isOver()) {
      await new Promise((resolve) => setTimeout(resolve, ASK_EVERY_MS));
      if (isOver()) return;
      const { marking } = await callHost('getMarking', { runId: id });
      if (marking && !isOver()) onMarking(marking);
    }
  }

  return {
    get begun() {
      return runId !== null;
    },
    get hand() {
      return hand;
    },
    get handScale() {
      return handScale;
    },
    begin(by, scale) {
      if (runId !== null) return;
      hand = by;
      handScale = scale;
      again = () =>
        callHost('beginRun', {
          drillId: options.drillId,
          drillHash: options.drillHash,
          seed: options.seed,
          personId: options.personId,
          assignmentId: options.assignmentId,
          hand: by,
          handScale: scale,
          coreVersion: CORE_VERSION,
          choices: options.choices,
        }).then((reply) => reply.runId);
      runId = again();
      send().catch(trouble);
    },
    chunk(chunk) {
      waiting.push(chunk);
      if (runId !== null) send().catch(trouble);
    },
    async finish(run) {
      // A beginning that failed is tried once more; by now the disk may have room.
      const id = await (runId ?? Promise.reject(new Error('The run was never begun.'))).catch(() => {
        runId = again();
        return runId;
      });
      // A chunk may have come in just as a sender ran dry; one failure is tried again.
      while (waiting.length > 0 || tried !== null) await send().catch(() => send());
      const { tickCount, digests, finalDigest, diagnosis, score, trace, used } = run;
      let over = false;
      const finishing = callHost('finishRun', {
        runId: id,
        tickCount,
        digests,
        finalDigest,
        diagnosis,
        score: { ...score, measures: score.measures.map((measure) => ({ ...measure })) },
        trace,
        used,
      }).finally(() => {
        over = true;
      });
      // What cannot be asked only leaves the bar away; the run is told of by its own answer.
      watchMarking(id, () => over).catch(() => undefined);
      return (await finishing).id;
    },
    async abandon() {
      if (runId === null) return;
      await send().catch(() => undefined);
      await callHost('abandonRun', { runId: await runId });
    },
  };
}
