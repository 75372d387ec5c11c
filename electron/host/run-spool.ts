import { appendHandTick, createHandLog, decodeHandLog, type HandLog, readHandTick } from '../../sim-core/index.ts';
import type { ParsedRequest, Reply } from '../contract.ts';
import { HostError } from './host-error.ts';
import type { RecordsDatabase } from './records-tables.ts';

/** A run that hears nothing for this long is shown as unfinished; its next chunk opens it again. */
const SILENCE_LIMIT_MS = 10_000;

interface LiveRun {
  nextSequence: number;
  tickCount: number;
  heardAtMs: number;
}

export interface RunSpool {
  begin(runId: string): void;
  /** Resolves when the chunk is on disk. @throws HostError 'conflict', 'missing-chunks', 'bad-request' */
  append(request: ParsedRequest<'appendToRun'>): Promise<Reply<'appendToRun'>>;
  /** Runs of this session that were silent for too long become 'unfinished'. */
  markSilent(): Promise<void>;
  /** A run that could not be finished becomes 'unfinished' with all that was acknowledged; it may be finished yet. */
  leaveUnfinished(runId: string): Promise<void>;
  /** The run takes no more chunks. */
  close(runId: string): void;
}

/**
 * Inputs of runs that are being cut, chunk by chunk. What the page sent is committed before it is acknowledged.
 * @param nowMs a clock that only goes forward, ms
 */
export function createRunSpool(db: RecordsDatabase, nowMs: () => number = () => performance.now()): RunSpool {
  const live = new Map<string, LiveRun>();

  async function acknowledgedBefore(run: LiveRun, request: ParsedRequest<'appendToRun'>): Promise<Reply<'appendToRun'>> {
    const stored = await db
      .selectFrom('run_spool')
      .select(['first_tick', 'inputs'])
      .where('run_id', '=', request.runId)
      .where('sequence', '=', request.sequence)
      .executeTakeFirstOrThrow();
    const same = stored.first_tick === request.firstTick && Buffer.from(stored.inputs).toString('base64') === request.inputs;
    if (!same) throw new HostError('conflict', `Chunk ${request.sequence} of this run is on disk already with other inputs.`);
    return { tickCount: run.tickCount, nextSequence: run.nextSequence };
  }

  async function markUnfinished(runIds: readonly string[]): Promise<void> {
    await db
      .updateTable('runs')
      .set({ state: 'unfinished', ended_at: new Date().toISOString() })
      .where('id', 'in', runIds)
      .where('state', '=', 'open')
      .execute();
  }

  return {
    begin(runId) {
      live.set(runId, { nextSequence: 0, tickCount: 0, heardAtMs: nowMs() });
    },

    async append(request) {
      const run = live.get(request.runId);
      if (!run)
        throw new HostError(
          'conflict',
          'This run is closed, or was begun before Kerfhand was last started; it takes no more inputs.',
        );
      run.heardAtMs = nowMs();
      if (request.sequence < run.nextSequence) return await acknowledgedBefore(run, request);
      if (request.sequence > run.nextSequence) {
        throw new HostError(
          'missing-chunks',
          `Chunk ${request.sequence} came before chunk ${run.nextSequence} of this run was acknowledged.`,
        );
      }
      if (request.firstTick !== run.tickCount) {
        throw new HostError(
          'bad-request',
          `Chunk ${request.sequence} begins at tick ${request.firstTick}, this run goes on at tick ${run.tickCount}.`,
        );
      }
      const inputs = readChunk(request);
      const tickCount = run.tickCount + request.tickCount;
      await db.transaction().execute(async (step) => {
        await step
          .insertInto('run_spool')
          .values({
            run_id: request.runId,
            sequence: request.sequence,
            first_tick: request.firstTick,
            tick_count: request.tickCount,
            inputs,
            stored_at: new Date().toISOString(),
          })
          .execute();
        await step
          .updateTable('runs')
          .set({ tick_count: tickCount, state: 'open', ended_at: null })
          .where('id', '=', request.runId)
          .execute();
      });
      run.tickCount = tickCount;
      run.nextSequence += 1;
      return { tickCount, nextSequence: run.nextSequence };
    },

    async markSilent() {
      const silent = [...live].filter(([, run]) => nowMs() - run.heardAtMs > SILENCE_LIMIT_MS).map(([runId]) => runId);
      if (silent.length > 0) await markUnfinished(silent);
    },

    leaveUnfinished: (runId) => markUnfinished([runId]),

    close(runId) {
      live.delete(runId);
    },
  };
}

function readChunk(request: ParsedRequest<'appendToRun'>): Uint8Array {
  const bytes = new Uint8Array(Buffer.from(request.inputs, 'base64'));
  const log = decodeInputs(bytes, `Chunk ${request.sequence}`);
  if (log.length !== request.tickCount) {
    throw new HostError('bad-request', `Chunk ${request.sequence} says ${request.tickCount} ticks and holds ${log.length}.`);
  }
  return bytes;
}

export function decodeInputs(bytes: Uint8Array, what: string): HandLog {
  try {
    return decodeHandLog(bytes);
  } catch (error) {
    if (error instanceof RangeError)
      throw new HostError('bad-request', `${what} is not a hand log: ${error.message}`, { cause: error });
    throw error;
  }
}

/** Everything of a run that is on disk, joined into one hand log. */
export async function joinSpool(db: RecordsDatabase, runId: string): Promise<HandLog> {
  const chunks = await db.selectFrom('run_spool').select('inputs').where('run_id', '=', runId).orderBy('sequence').execute();
  const whole = createHandLog();
  const tick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 as 0 | 1 };
  for (const chunk of chunks) {
    const log = decodeHandLog(chunk.inputs);
    for (let index = 0; index < log.length; index++) {
      readHandTick(log, index, tick);
      appendHandTick(whole, tick);
    }
  }
  return whole;
}

/** Tables that may speak of a run that has no inputs. */
const SPEAKS_OF_RUNS = ['notes', 'drill_demonstrations', 'moderation_runs'] as const;

/**
 * Settles what the last session left behind: runs still open become 'unfinished' with all that was acknowledged, ended when the
 * last chunk came. Runs of this yard that never got one are dropped, unless somebody said something of them.
 * @returns how many were kept
 */
export async function recoverOpenRuns(db: RecordsDatabase): Promise<number> {
  return await db.transaction().execute(async (step) => {
    let empty = step
      .deleteFrom('runs')
      .where('source', '=', 'here')
      .where('state', 'in', ['open', 'unfinished'])
      .where('tick_count', '=', 0);
    for (const table of SPEAKS_OF_RUNS) empty = empty.where('id', 'not in', (inner) => inner.selectFrom(table).select('run_id'));
    await empty.execute();
    const open = await step.selectFrom('runs').select(['id', 'began_at']).where('state', '=', 'open').execute();
    for (const run of open) {
      const last = await step
        .selectFrom('run_spool')
        .select('stored_at')
        .where('run_id', '=', run.id)
        .orderBy('sequence', 'desc')
        .executeTakeFirst();
      await step
        .updateTable('runs')
        .set({ state: 'unfinished', ended_at: last?.stored_at ?? run.began_at })
        .where('id', '=', run.id)
        .execute();
    }
    return open.length;
  });
}
