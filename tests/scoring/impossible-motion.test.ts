// Motion that no hand makes is refused with what and where; what a hand does on a machine that stalls never is.
import { expect, test } from 'vitest';
import { createHandTrack } from '../../renderer/bench/hand-track.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import {
  appendHandTick,
  CORE_VERSION,
  createHandLog,
  decodeRunFile,
  encodeHandLog,
  encodeRunFile,
  type HandLog,
  type HandPose,
  impossibleMotion,
  MOTION_LIMITS,
  quantiseHand,
  TICK_HZ,
} from '../../sim-core/index.ts';
import { nextUnit } from '../../sim-core/math/random.ts';
import { drillText } from '../scenarios/drill-files.ts';

const STILL: HandPose = { xMm: 50, yMm: 45, heightMm: 1.5, leanXDeg: 0, leanYDeg: 0, trigger: true };

/** Three seconds of a hand, the pose told by the time in s. */
function logOf(pose: (t: number) => Partial<HandPose>): HandLog {
  const log = createHandLog();
  for (let tick = 0; tick < 3 * TICK_HZ; tick += 1) appendHandTick(log, quantiseHand({ ...STILL, ...pose(tick / TICK_HZ) }));
  return log;
}

const wave = (hz: number, size: number) => (t: number) => size * Math.sin(2 * Math.PI * hz * t);

test.each<[string, (t: number) => Partial<HandPose>]>([
  ['turns', (t) => ({ xMm: 50 + wave(30, 1)(t) })],
  ['turns', (t) => ({ heightMm: 2 + wave(30, 1)(t) })],
  ['turns', (t) => ({ leanYDeg: wave(30, 5)(t) })],
  ['way', (t) => ({ xMm: 500 + wave(15, 300)(t) })],
  ['pulls', (t) => ({ trigger: (t * 30) % 1 < 0.5 })],
])('%s beyond the limit are found where they are', (kind, pose) => {
  const found = impossibleMotion(logOf((t) => (t < 1 ? {} : pose(t - 1))));
  expect(found).toMatchObject({ kind });
  expect(found?.toTick).toBeGreaterThan(TICK_HZ);
  expect(found?.toTick).toBeLessThanOrEqual(2 * TICK_HZ + 24);
});

test('the strongest tremor, the quickest beat and fingers at their quickest are a hand', () => {
  for (const pose of [
    (t: number) => ({ xMm: 50 + wave(12, 10)(t), heightMm: 5 + wave(12, 3)(t), leanXDeg: wave(12, 15)(t) }),
    (t: number) => ({ xMm: 50 + wave(8, 60)(t) }),
    (t: number) => ({ trigger: (t * 12) % 1 < 0.5 }),
    // Put down anywhere with the trigger up.
    (t: number) => ({ xMm: t * TICK_HZ * 1000, trigger: false }),
  ]) {
    expect(impossibleMotion(logOf(pose))).toBeNull();
  }
});

test('a quick hand on a machine that stalls again and again is never refused', () => {
  const random = { counter: 7 };
  let most = 0;
  for (let run = 0; run < 30; run += 1) {
    const hz = 2 + 6 * nextUnit(random);
    const size = 5 + 75 * nextUnit(random);
    const everyMs = 1 + 16 * nextUnit(random);
    const log = createHandLog();
    const track = createHandTrack(STILL, 0, limitsFor(160, 90));
    let [deliveredMs, nextEventMs, ticks] = [0, 0, 0];
    while (deliveredMs < 6000) {
      // What happened since comes in one go, after a frame or after a stall of up to a second, while the ticks went on.
      deliveredMs += nextUnit(random) < 0.2 ? 1000 * nextUnit(random) : 16;
      for (; (ticks * 1000) / TICK_HZ < deliveredMs - 8; ticks += 1) {
        appendHandTick(log, quantiseHand(track.poseAt((ticks * 1000) / TICK_HZ)));
      }
      for (; nextEventMs <= deliveredMs; nextEventMs += everyMs) {
        const xMm = 80 + wave(hz, size)(nextEventMs / 1000);
        track.push({ atMs: nextEventMs, pose: { ...STILL, xMm }, rate: null });
      }
    }
    expect(impossibleMotion(log), `run ${run}`).toBeNull();
    let way = 0;
    for (let tick = 1; tick < log.length; tick += 1) way += Math.abs(log.values[tick * 6]! - log.values[tick * 6 - 6]!);
    most = Math.max(most, way);
  }
  expect(most, 'the hands did move').toBeGreaterThan(MOTION_LIMITS.wayMm);
});

test('a run file with such motion is refused with what and where', () => {
  const log = logOf((t) => ({ xMm: 50 + wave(60, 2)(t) }));
  const text = encodeRunFile({
    coreVersion: CORE_VERSION,
    drillText: drillText('hanger-tab-straight-6.json'),
    seed: 1,
    hand: { kind: 'mouse', name: 'mouse' },
    choices: null,
    diagnosis: null,
    finished: false,
    tickCount: log.length,
    inputs: encodeHandLog(log),
    digests: [],
    finalDigest: null,
    trace: null,
    score: null,
  });
  const read = decodeRunFile(text);
  expect(read).toMatchObject({ ok: false, why: 'unreadable' });
  expect(read.ok ? '' : read.problems[0]?.sentence).toMatch(
    /^No hand did this: in the second up to 0\.\d\d s, at x \d+\.\d mm, y 45\.0 mm, the place along x of the lit torch turns back 41 times\.$/,
  );
  expect(read.ok ? '' : read.problems[0]?.path).toBe('$.inputs');
});
