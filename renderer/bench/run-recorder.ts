import { CORE_VERSION, toBase64 } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import type { FinishedRun, HandChunk } from './worker-messages.ts';

export interface RecorderOptions {
  drillId: string;
  drillHash: string;
  seed: number;
  personId: string | null;
  /** Something could not be written; the run goes on and is tried again. */
  onTrouble(error: unknown): void;
}

/**
 * Hands a run over to the host while it is being cut. Chunks wait here until the host has acknowledged them, in order; one that
 * failed is sent again, unchanged, with the next. Nothing is begun before the trigger was pressed.
 */
export interface RunRecorder {
  readonly begun: boolean;
  begin(device: 'mouse' | 'keyboard' | 'gamepad', name: string): void;
  chunk(chunk: HandChunk): void;
  /** Id under which the run is kept. Throws HostError where it could not be. */
  finish(run: FinishedRun): Promise<string>;
  /** Given up: what was sent stays, marked so. */
  abandon(): Promise<void>;
}

export function createRunRecorder(options: RecorderOptions): RunRecorder {
  const waiting: HandChunk[] = [];
  let runId: Promise<string> | null = null;
  let sending: Promise<void> | null = null;
  let again = () => Promise.resolve('');

  async function drain(): Promise<void> {
    if (runId === null) return;
    const id = await runId;
    for (let chunk = waiting[0]; chunk !== undefined; chunk = waiting[0]) {
      const { sequence, firstTick, tickCount, inputs } = chunk;
      await callHost('appendToRun', { runId: id, sequence, firstTick, tickCount, inputs: toBase64(inputs) });
      waiting.shift();
    }
  }

  /** One sender at a time; a failure ends it and the next chunk starts it again. */
  function send(): Promise<void> {
    sending ??= drain().finally(() => {
      sending = null;
    });
    return sending;
  }

  return {
    get begun() {
      return runId !== null;
    },
    begin(device, name) {
      if (runId !== null) return;
      again = () =>
        callHost('beginRun', {
          drillId: options.drillId,
          drillHash: options.drillHash,
          seed: options.seed,
          personId: options.personId,
          hand: { kind: device, name },
          coreVersion: CORE_VERSION,
        }).then((reply) => reply.runId);
      runId = again();
      send().catch(options.onTrouble);
    },
    chunk(chunk) {
      waiting.push(chunk);
      if (runId !== null) send().catch(options.onTrouble);
    },
    async finish(run) {
      // A beginning that failed is tried once more; by now the disk may have room.
      const id = await (runId ?? Promise.reject(new Error('The run was never begun.'))).catch(() => {
        runId = again();
        return runId;
      });
      // A chunk may have come in just as a sender ran dry; one failure is tried again.
      while (waiting.length > 0) await send().catch(() => send());
      const { tickCount, digests, finalDigest, score, trace } = run;
      const summary = await callHost('finishRun', {
        runId: id,
        tickCount,
        digests,
        finalDigest,
        score: { ...score, measures: score.measures.map((measure) => ({ ...measure })) },
        trace,
      });
      return summary.id;
    },
    async abandon() {
      if (runId === null) return;
      await send().catch(() => undefined);
      await callHost('abandonRun', { runId: await runId });
    },
  };
}
