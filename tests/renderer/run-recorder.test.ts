import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createRunRecorder } from '../../renderer/bench/run-recorder.ts';
import { runTrouble } from '../../renderer/bench/run-trouble.ts';
import type { FinishedRun, HandChunk } from '../../renderer/bench/worker-messages.ts';
import { appendHandTick, createHandLog, decodeHandLog, encodeHandLog, fromBase64 } from '../../sim-core/index.ts';

type Call = { verb: string; request: Record<string, unknown> };

let calls: Call[];
let refuse: (call: Call) => string | null;
let hold: (call: Call) => Promise<void>;
const MARKING = { doneTicks: 100, totalTicks: 216 };
const replies: Record<string, unknown> = {
  beginRun: { runId: 'run-1' },
  finishRun: { id: 'run-1' },
  getMarking: { marking: MARKING },
};

beforeEach(() => {
  calls = [];
  refuse = () => null;
  hold = async () => undefined;
  const answer = (verb: string) => async (request: Record<string, unknown>) => {
    const call = { verb, request };
    calls.push(call);
    await Promise.resolve();
    const message = refuse(call);
    if (message) return { ok: false, error: { code: 'disk-full', message } };
    await hold(call);
    return { ok: true, reply: replies[verb] ?? {} };
  };
  const verbs = ['beginRun', 'appendToRun', 'finishRun', 'getMarking', 'abandonRun'];
  const kerfhand = Object.fromEntries(verbs.map((verb) => [verb, answer(verb)]));
  vi.stubGlobal('window', { kerfhand });
});
afterEach(() => vi.unstubAllGlobals());

const TICKS = 72;
const log = (first: number, count: number) => {
  const made = createHandLog();
  for (let n = 0; n < count; n += 1) appendHandTick(made, { x: first + n, y: 5, height: 150, leanX: 0, leanY: 0, trigger: 1 });
  return made;
};
const chunk = (n: number): HandChunk => ({
  firstTick: n * TICKS,
  tickCount: TICKS,
  inputs: encodeHandLog(log(n * TICKS, TICKS)),
});
const finished = {
  tickCount: 216,
  inputs: new Uint8Array(),
  digests: [],
  finalDigest: '0',
  score: { measures: [] },
  trace: {},
} as unknown as FinishedRun;
const recorder = (onTrouble: (error: unknown) => void = () => undefined) =>
  createRunRecorder({ drillId: 'd', drillHash: 'h', seed: 1, personId: null, assignmentId: null, choices: null, onTrouble });
/** First tick and number of ticks of every chunk that went to the host, with its sequence. */
const sent = () =>
  calls
    .filter((call) => call.verb === 'appendToRun')
    .map(({ request }) => [request.sequence, request.firstTick, request.tickCount]);
/** x of every tick in what was sent and not refused: the run as the host would join it. */
const joined = (refused: readonly number[] = []) =>
  calls
    .filter((call) => call.verb === 'appendToRun')
    .filter((_, n) => !refused.includes(n))
    .flatMap(({ request }) => {
      const part = decodeHandLog(fromBase64(request.inputs as string));
      return Array.from({ length: part.length }, (_, n) => part.values[n * 6]);
    });
const counting = (ticks: number) => Array.from({ length: ticks }, (_, n) => n);
const rest = () => new Promise((resolve) => setTimeout(resolve, 5));

test('nothing is begun before the trigger; then everything since the first movement goes, in order', async () => {
  const run = recorder();
  run.chunk(chunk(0));
  run.chunk(chunk(1));
  await rest();
  expect(calls).toEqual([]);
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  run.begin({ kind: 'keyboard', name: 'keyboard' }, null);
  await rest();
  expect(calls[0]).toMatchObject({ verb: 'beginRun', request: { hand: { kind: 'mouse' } } });
  expect(sent()).toEqual([[0, 0, 144]]);
  expect(joined()).toEqual(counting(144));
});

test('a chunk that was refused is sent again, unchanged, before any later one, and the trouble is told', async () => {
  const told: string[] = [];
  const run = recorder((error) => told.push((error as Error).message));
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  await rest();
  let full = true;
  refuse = ({ verb }) => (verb === 'appendToRun' && full ? 'The disk is full.' : null);
  run.chunk(chunk(0));
  await rest();
  full = false;
  run.chunk(chunk(1));
  await rest();
  expect(told).toEqual(['The disk is full.']);
  expect(sent()).toEqual([
    [0, 0, 72],
    [0, 0, 72],
    [1, 72, 72],
  ]);
  expect(joined([0])).toEqual(counting(144));
});

test('a host that answers late is told of before it answers, and no longer once it has', async () => {
  vi.useFakeTimers();
  try {
    const answered = Promise.withResolvers<void>();
    const told: unknown[] = [];
    hold = ({ verb }) => (verb === 'appendToRun' ? answered.promise : Promise.resolve());
    const run = createRunRecorder({
      ...{ drillId: 'd', drillHash: 'h', seed: 1, personId: null, assignmentId: null, choices: null },
      onTrouble: (error) => told.push(runTrouble(error, false)),
      onRecovered: () => told.push('recovered'),
    });
    run.begin({ kind: 'mouse', name: 'mouse' }, null);
    run.chunk(chunk(0));
    await vi.advanceTimersByTimeAsync(4900);
    expect(told).toEqual([]);
    await vi.advanceTimersByTimeAsync(200);
    expect(told).toEqual([expect.stringContaining('keep this page open')]);
    answered.resolve();
    await vi.advanceTimersByTimeAsync(1);
    expect(told.slice(1)).toEqual(['recovered']);
    expect(sent()).toEqual([[0, 0, 72]]);
  } finally {
    vi.useRealTimers();
  }
});

test('finishing waits for every chunk, also one that comes in while the sender runs dry', async () => {
  const run = recorder();
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  run.chunk(chunk(0));
  await rest();
  run.chunk(chunk(1));
  const done = run.finish(finished);
  run.chunk(chunk(2));
  expect(await done).toBe('run-1');
  expect(joined()).toEqual(counting(216));
  expect(calls.at(-1)?.verb).toBe('finishRun');
});

test('a beginning that failed is tried once more at the end; then the run is kept whole', async () => {
  let full = true;
  refuse = ({ verb }) => (verb === 'beginRun' && full ? 'The disk is full.' : null);
  const run = recorder();
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  run.chunk(chunk(0));
  await rest();
  full = false;
  expect(await run.finish(finished)).toBe('run-1');
  expect(joined()).toEqual(counting(72));
});

test('while the host takes long to mark, how far it is is told, and no more once the run is finished', async () => {
  const told: unknown[] = [];
  const onMarking = (marking: unknown) => told.push(marking);
  const options = { drillId: 'd', drillHash: 'h', seed: 1, personId: null, assignmentId: null, choices: null };
  const run = createRunRecorder({ ...options, onTrouble: () => undefined, onMarking });
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  run.chunk(chunk(0));
  const marked = Promise.withResolvers<void>();
  hold = ({ verb }) => (verb === 'finishRun' ? marked.promise : Promise.resolve());
  const finishing = run.finish(finished);
  await expect.poll(() => told).toContainEqual(MARKING);
  marked.resolve();
  expect(await finishing).toBe('run-1');
  const asked = calls.length;
  await new Promise((resolve) => setTimeout(resolve, 600));
  expect(calls.length).toBe(asked);
});

test('where nothing can be written, finishing fails with the host’s own sentence', async () => {
  refuse = () => 'The disk is full.';
  const run = recorder();
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  run.chunk(chunk(0));
  await rest();
  await expect(run.finish(finished)).rejects.toThrow('The disk is full.');
});

test('a run given up keeps what was sent and is marked so; one never begun leaves no trace', async () => {
  await recorder().abandon();
  expect(calls).toEqual([]);
  const run = recorder();
  run.begin({ kind: 'gamepad', name: 'gamepad' }, null);
  run.chunk(chunk(0));
  await run.abandon();
  expect(calls.map((call) => call.verb)).toEqual(['beginRun', 'appendToRun', 'abandonRun']);
});

test('where the host answers slowly the chunks grow, up to what one may hold, and stay in order', async () => {
  const run = recorder();
  for (let n = 0; n < 100; n += 1) run.chunk(chunk(n));
  run.begin({ kind: 'mouse', name: 'mouse' }, null);
  await rest();
  expect(sent()).toEqual([
    [0, 0, 4752],
    [1, 4752, 2448],
  ]);
  expect(joined()).toEqual(counting(7200));
});
