// The session of the worker by a clock of the test's own: how it catches up, and what it lets in meanwhile.
import { afterEach, expect, test } from 'vitest';
import { createLiveSession, type LiveSession } from '../../renderer/bench/live-session.ts';
import type { FromWorker, HandChunk } from '../../renderer/bench/worker-messages.ts';
import { decodeHandLog, type HandPose, type HandTick, readHandTick } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';

const WAITING: HandPose = { xMm: -20, yMm: 60, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
const STALL_MS = 500;
/** What a look at the clock costs here: some ticks, and the slice is over. */
const LOOK_MS = 0.5;

let nowMs: number;
let session: LiveSession;
let chunks: HandChunk[];

function begin(): void {
  nowMs = 1000;
  chunks = [];
  session = createLiveSession({
    drill: shippedDrill('hanger-tab-straight-6'),
    seed: 1,
    choices: null,
    window: { losingSpeedMmPerS: 20, windowLowMmPerS: 8, windowHighMmPerS: 14, edgeDwellS: 0.5 },
    pose: WAITING,
    nowMs,
    now() {
      nowMs += LOOK_MS;
      return nowMs;
    },
    post(message: FromWorker) {
      if (message.kind === 'chunk') chunks.push(message.chunk);
    },
  });
}

afterEach(() => session.stop());

/** Lets the worker's own turns pass until it has caught up. */
async function untilStepped(ticks: number): Promise<void> {
  for (let stepped = session.watch().length; stepped < ticks; stepped += session.watch().length)
    await new Promise((resolve) => setTimeout(resolve, 1));
}

test('a long catching up gives way: what the hand sends meanwhile is in the ticks that come after it', async () => {
  begin();
  session.watch();
  nowMs += STALL_MS;
  // Takes the first slice; the rest is still owed when the next movement arrives.
  session.hand([{ atMs: 1000 + STALL_MS - 100, pose: { ...WAITING, xMm: -10 }, rate: null }]);
  const before = session.watch();
  expect(before.length).toBeGreaterThan(0);
  expect(before.length).toBeLessThan(20);
  session.hand([{ atMs: 1000 + STALL_MS - 90, pose: { ...WAITING, xMm: -9, trigger: true }, rate: null }]);
  await untilStepped(Math.round(STALL_MS * 0.24) - before.length);
  session.end();
  const tick: HandTick = { x: 0, y: 0, height: 0, leanX: 0, leanY: 0, trigger: 0 };
  const ticks = chunks.flatMap(({ inputs }) => {
    const log = decodeHandLog(inputs);
    return Array.from({ length: log.length }, (_, n) => ({ ...readHandTick(log, n, tick) }));
  });
  expect(ticks.length).toBeGreaterThanOrEqual(Math.round(STALL_MS * 0.24));
  const fired = ticks.findIndex(({ trigger }) => trigger === 1);
  // Each tick is 1/240 s from the start, 14 ms before the run's own: the trigger is where its stamp says.
  expect(fired).toBe(Math.ceil((STALL_MS - 90 + 14) * 0.24) - 1);
  expect(ticks[fired]?.x).toBe(-900);
});

test('halting and ending step whatever is due, without a break', () => {
  begin();
  session.watch();
  nowMs += STALL_MS;
  session.hold(true, nowMs);
  expect(session.watch().length).toBeGreaterThanOrEqual(Math.floor(STALL_MS * 0.24));
});
