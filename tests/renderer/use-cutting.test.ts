// The bench from the card to the end of a run, with a worker and a host that only the test lets answer.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type Cutting, useCutting } from '../../renderer/bench/use-cutting.ts';
import type { FinishedRun, FromWorker, ToWorker } from '../../renderer/bench/worker-messages.ts';
import { takeFreshRun, UNKEPT_RUN_ID } from '../../renderer/review/fresh-run.ts';
import { createSceneHandle } from '../../renderer/scene/scene-handle.ts';
import { appendHandTick, createHandLog, encodeHandLog } from '../../sim-core/index.ts';
import { drillText, shippedDrill } from '../scenarios/drill-files.ts';
import { type MountedHook, mountHook } from './mount-hook.ts';

const DRILL = shippedDrill('hanger-tab-straight-6');
const VERSION = { drillHash: 'hash', drillText: drillText('hanger-tab-straight-6.json') };
const WINDOW = { losingSpeedMmPerS: 20, windowLowMmPerS: 8, windowHighMmPerS: 14, edgeDwellS: 0.5 };
const GRID = {
  ...{ cellMm: 1, nx: 8, ny: 8, layers: 1, layerMm: 1, x0Mm: 0, y0Mm: 0 },
  ...{ tileCells: 8, tilesX: 1, tilesY: 1, heatCellsPerTile: 1 },
};
const FINISHED = { inputs: new Uint8Array(), digests: [], score: { measures: [] }, trace: {} } as unknown as FinishedRun;

class WorkerStandIn {
  static last: WorkerStandIn;
  onmessage: ((event: { data: FromWorker }) => void) | null = null;
  asked: ToWorker[] = [];
  ended = false;
  constructor() {
    WorkerStandIn.last = this;
  }
  postMessage(message: ToWorker): void {
    this.asked.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
}

let calls: { verb: string; request: Record<string, unknown> }[];
/** A call that the host does not carry out. */
let refused: string | null;
let location: { hash: string };
let stage: EventTarget;
let bench: MountedHook<Cutting>;
const verbs = () => calls.map(({ verb }) => verb);
const worker = () => WorkerStandIn.last;
const asked = () => worker().asked.map(({ kind }) => kind);
const says = (data: FromWorker) => bench.does(() => worker().onmessage?.({ data }));
const key = (type: string, code: string) =>
  bench.does(() => void stage.dispatchEvent(Object.assign(new Event(type), { code, repeat: false, shiftKey: false })));

function chunk(firstTick: number): FromWorker {
  const log = createHandLog();
  appendHandTick(log, { x: 0, y: 0, height: 800, leanX: 0, leanY: 0, trigger: 0 });
  return { kind: 'chunk', chunk: { firstTick, tickCount: 1, inputs: encodeHandLog(log) } };
}

beforeEach(async () => {
  calls = [];
  refused = null;
  location = { hash: '#/bench/hanger-tab-straight-6' };
  stage = Object.assign(new EventTarget(), { focus: () => undefined });
  const replies: Record<string, unknown> = { beginRun: { runId: 'run-1' }, finishRun: { id: 'run-1' } };
  const host = (verb: string) => async (request: Record<string, unknown>) => {
    calls.push({ verb, request });
    if (verb === refused) return { ok: false, error: { code: 'disk-full', message: 'The disk is full.' } };
    return { ok: true, reply: replies[verb] ?? { window: null } };
  };
  vi.stubGlobal('Worker', WorkerStandIn);
  vi.stubGlobal('navigator', { getGamepads: () => [] });
  vi.stubGlobal('document', Object.assign(new EventTarget(), { pointerLockElement: null, visibilityState: 'visible' }));
  const kerfhand = new Proxy({}, { get: (_, verb: string) => host(verb) });
  vi.stubGlobal(
    'window',
    Object.assign(new EventTarget(), { kerfhand, location, screen: { width: 1280, height: 800 }, devicePixelRatio: 1 }),
  );
  await open(false);
});
afterEach(async () => {
  await bench.unmount();
  vi.unstubAllGlobals();
});

async function open(sealed: boolean): Promise<void> {
  const frame = { current: stage as HTMLElement };
  const progress = { current: null };
  const scene = createSceneHandle();
  const onEye = () => undefined;
  bench = await mountHook(() => useCutting(DRILL, VERSION, null, frame, progress, scene, sealed, onEye));
  await says({ kind: 'window', window: WINDOW });
  await toThePlate();
}

async function toThePlate(): Promise<void> {
  await bench.does(() => bench.now.begin());
  await says({ kind: 'ready', grid: GRID, tickCount: 0 });
}

/** Fired, and ended by whoever cut. */
async function cut(): Promise<void> {
  await key('keydown', 'Space');
  await key('keyup', 'Space');
  await bench.does(() => bench.now.end());
}

test.each([
  ['practice', false],
  ['an assessment', true],
])('%s: a bench that is left after the end of a run keeps it with its marks, and then lets the worker go', async (_, sealed) => {
  await bench.unmount();
  await open(sealed);
  await cut();
  expect(asked().slice(-2)).toEqual(['end', 'mark']);
  await bench.unmount();
  expect(worker().ended).toBe(false);
  await says(chunk(0));
  await says({ kind: 'finished', run: FINISHED });
  await expect.poll(() => worker().ended).toBe(true);
  expect(verbs()).toContain('finishRun');
  expect(verbs()).not.toContain('abandonRun');
  // Nobody is called back from where they have gone.
  expect(location.hash).toBe('#/bench/hanger-tab-straight-6');
});

test('a bench that is left in the middle of a run gives it up', async () => {
  await key('keydown', 'Space');
  await bench.unmount();
  expect(worker().ended).toBe(true);
  await expect.poll(verbs).toContain('abandonRun');
});

test('a worker that fails while it marks is let go with the bench, and its run given up', async () => {
  await cut();
  await says({ kind: 'failed', message: 'Out of memory.' });
  expect(bench.now).toMatchObject({ phase: 'failed', failure: 'Out of memory.' });
  await bench.unmount();
  expect(worker().ended).toBe(true);
  await expect.poll(verbs).toContain('abandonRun');
});

test('keys that are looked up at the card, after a try without a trigger, halt nothing', async () => {
  await key('keydown', 'ArrowRight');
  await bench.does(() => bench.now.end());
  await bench.does(() => bench.now.hold());
  await toThePlate();
  expect(bench.now).toMatchObject({ phase: 'cutting', held: false });
});

test('ended before any trigger it is back at the card: the worker steps no more, and what it still sends is no part of the next run', async () => {
  await key('keydown', 'ArrowRight');
  await bench.does(() => bench.now.hold());
  expect(bench.now.held).toBe(true);
  await bench.does(() => bench.now.end());
  expect(bench.now).toMatchObject({ phase: 'card', held: false });
  expect(asked()).toContain('end');
  await bench.does(() => bench.now.begin());
  await says(chunk(720));
  await says({ kind: 'ready', grid: GRID, tickCount: 0 });
  await key('keydown', 'Space');
  await says(chunk(0));
  await expect.poll(verbs).toContain('appendToRun');
  expect(calls.filter(({ verb }) => verb === 'appendToRun').map(({ request }) => request.firstTick)).toEqual([0]);
});

test('a run that could not be kept goes to the review with all that its file needs', async () => {
  refused = 'finishRun';
  await cut();
  await bench.does(() => bench.now.guess(null));
  await says({ kind: 'finished', run: FINISHED });
  await expect.poll(() => location.hash).toBe(`#/run/${UNKEPT_RUN_ID}`);
  const { drillText } = VERSION;
  expect(takeFreshRun(UNKEPT_RUN_ID)).toMatchObject({ state: 'finished', notKept: { reason: 'The disk is full.', drillText } });
});
