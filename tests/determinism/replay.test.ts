import { describe, expect, test } from 'vitest';
import {
  createReplay,
  createSimulation,
  decodeHandLog,
  encodeHandLog,
  type Recording,
  SAMPLE_FIELDS,
} from '../../sim-core/index.ts';
import { appendHandTick, createHandLog } from '../../sim-core/run/hand-input.ts';
import { type ScriptedRun, scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

const runs = scriptedRuns();

/** The run as it is kept: its inputs written out and read in again. */
function recordingOf(run: ScriptedRun): Recording {
  const log = createHandLog(1);
  for (const hand of run.hand) appendHandTick(log, hand);
  return { setup: run.setup, log: decodeHandLog(encodeHandLog(log)) };
}

describe.each(runs)('$name, replayed from its record', (run) => {
  test('goes the way that it went live, in steps of any size', () => {
    const live = stepThrough(run);
    for (const stepTicks of [1, 4, 17, 240, 100_000]) {
      const replay = createReplay(recordingOf(run));
      while (replay.advance(stepTicks));
      expect(replay.digests, `advanced by ${stepTicks}`).toEqual(live.perSecond);
      expect(replay.finalDigest).toBe(live.final);
      expect(replay.samples.length).toBe(run.hand.length);
    }
  });

  test('shows every tick as it was, scrubbed backwards to the start and then in leaps', () => {
    const digests: string[] = [];
    const simulation = createSimulation(run.setup);
    digests.push(simulation.digest());
    for (const hand of run.hand.slice(0, 600)) {
      simulation.step(hand);
      digests.push(simulation.digest());
    }
    const replay = createReplay(recordingOf(run));
    while (replay.advance(500));
    // Every frame of a 60 Hz display, and every tick about a keyframe.
    for (let tick = 600; tick >= 0; tick -= tick > 236 && tick <= 244 ? 1 : 4) {
      replay.seek(tick);
      expect(replay.simulation.tick).toBe(tick);
      expect(replay.simulation.digest(), `tick ${tick}`).toBe(digests[tick]);
    }
    for (const tick of [7, 599, 240, 239, 481, 0, 600]) {
      replay.seek(tick);
      expect(replay.simulation.digest(), `tick ${tick}`).toBe(digests[tick]);
    }
  });

  test('can be sought in while it is still being built, without harm to what comes', () => {
    const plain = createReplay(recordingOf(run));
    while (plain.advance(1000));
    const disturbed = createReplay(recordingOf(run));
    for (let go = true, leap = 0; go; leap += 97) {
      go = disturbed.advance(60);
      disturbed.seek(leap % (disturbed.reached + 1));
    }
    expect(disturbed.digests).toEqual(plain.digests);
    expect(disturbed.finalDigest).toBe(plain.finalDigest);
    for (const field of SAMPLE_FIELDS) {
      const [told, expected] = [disturbed, plain].map(({ samples }) => samples.columns[field].slice(0, samples.length));
      expect(told, field).toEqual(expected);
    }
  });
});

test('gone back to where the torch is off, no metal flies any more', () => {
  const [run] = runs as [ScriptedRun];
  const replay = createReplay(recordingOf(run));
  replay.advance(run.hand.length);
  const rates = (): number[] => [replay.simulation.ejecta.underRateMm3PerS, replay.simulation.ejecta.topRateMm3PerS];
  const burning = Array.from(replay.samples.columns.underMm3PerS.subarray(0, replay.samples.length)).findIndex(
    (rate) => rate > 50,
  );
  replay.seek(burning + 1);
  expect(Math.max(...rates())).toBeGreaterThan(0);
  replay.seek(0);
  expect(rates()).toEqual([0, 0]);
});

test('a tick that was not reached yet is refused', () => {
  const [run] = runs as [ScriptedRun];
  const replay = createReplay(recordingOf(run));
  replay.advance(10);
  expect(() => replay.seek(11)).toThrow(RangeError);
  expect(() => replay.seek(-1)).toThrow(RangeError);
  expect(() => replay.seek(1.5)).toThrow(RangeError);
});
