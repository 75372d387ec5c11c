import { afterEach, expect, test } from 'vitest';
import { createReplaySession, type ReplaySession } from '../../renderer/bench/replay-session.ts';
import type { FromWorker } from '../../renderer/bench/worker-messages.ts';
import { appendHandTick, createHandLog, encodeHandLog } from '../../sim-core/index.ts';
import { shippedDrill } from '../scenarios/drill-files.ts';

/** More than one slice of the rebuilding. */
const TICKS = 1000;

let session: ReplaySession;
let told: FromWorker[];
afterEach(() => session.stop());

/** A torch that waits beside the plate. */
function open(): void {
  const log = createHandLog(TICKS);
  for (let n = 0; n < TICKS; n += 1) appendHandTick(log, { x: n, y: 6000, height: 800, leanX: 0, leanY: 0, trigger: 0 });
  told = [];
  session = createReplaySession({
    drill: shippedDrill('hanger-tab-straight-6'),
    seed: 1,
    choices: null,
    inputs: encodeHandLog(log),
    recorded: null,
    now: () => 0,
    post(message) {
      told.push(message);
      if (message.kind === 'frame') queueMicrotask(() => session.drawn());
    },
  });
}

const built = () => told.some((message) => message.kind === 'built' && message.ticks === TICKS);
const sought = () => told.filter((message) => message.kind === 'sought').map(({ asked, tick }) => [asked, tick]);

test('a moment that is asked for while the run is rebuilt is shown, and answered, once it stands', async () => {
  open();
  session.seek(700, 1);
  expect(sought()).toEqual([]);
  await expect.poll(built).toBe(true);
  await expect.poll(sought).toEqual([[1, 700]]);
  expect(told.findLast((message) => message.kind === 'frame')).toMatchObject({ tick: 700 });
  session.seek(20, 2);
  expect(sought()).toEqual([
    [1, 700],
    [2, 20],
  ]);
});

test('of several moments asked for meanwhile the last one counts; without any it opens at the start', async () => {
  open();
  session.seek(100, 1);
  session.seek(900, 2);
  await expect.poll(sought).toEqual([[2, 900]]);
  session.stop();
  open();
  await expect.poll(built).toBe(true);
  await expect.poll(() => told.findLast((message) => message.kind === 'frame')).toMatchObject({ tick: 0 });
  expect(sought()).toEqual([]);
});
