import { describe, expect, test } from 'vitest';
import { createSimulation } from '../../sim-core/index.ts';
import { nextInteger } from '../../sim-core/math/random.ts';
import { type ScriptedRun, scriptedRuns } from './scripted-runs.ts';

const runs = scriptedRuns();

function simulationAt(run: ScriptedRun, tick: number) {
  const simulation = createSimulation(run.setup);
  for (const hand of run.hand.slice(0, tick)) simulation.step(hand);
  return simulation;
}

/** Bytes that differ, told by their place: a whole dump would say nothing. */
function firstDifference(a: Uint8Array, b: Uint8Array): number | null {
  if (a.length !== b.length) return Math.min(a.length, b.length);
  const at = a.findIndex((byte, index) => byte !== b[index]);
  return at < 0 ? null : at;
}

/** Ticks at which to save: the very start, just around a full second, and others anywhere. */
function ticksToSave(run: ScriptedRun): number[] {
  const random = { counter: run.hand.length };
  const anywhere = Array.from({ length: 5 }, () => nextInteger(random) % (run.hand.length - 300));
  return [0, 1, 239, 240, 241, ...anywhere];
}

describe.each(runs)('$name', (run) => {
  test.each(ticksToSave(run))('saved at tick %i, restored, stepped on: every later byte is the same', (tick) => {
    const original = simulationAt(run, tick);
    const bytes = original.save();
    const fresh = createSimulation(run.setup);
    fresh.restore(bytes);
    expect(fresh.tick).toBe(tick);
    expect(firstDifference(fresh.save(), bytes)).toBeNull();
    for (let later = tick; later < tick + 300; later++) {
      const hand = run.hand[later];
      if (!hand) break;
      original.step(hand);
      fresh.step(hand);
      expect(fresh.sample, `sample after tick ${later + 1}`).toEqual(original.sample);
      if ((later - tick) % 20 === 0) expect(firstDifference(fresh.save(), original.save()), `tick ${later + 1}`).toBeNull();
    }
    expect(fresh.digest()).toBe(original.digest());
    expect(firstDifference(fresh.save(), original.save())).toBeNull();
  });

  test('restored over a later state of itself, it goes on as it did before', () => {
    const simulation = simulationAt(run, 500);
    const bytes = simulation.save();
    const forward = run.hand.slice(500, 900).map((hand) => {
      simulation.step(hand);
      return simulation.digest();
    });
    simulation.restore(bytes);
    const again = run.hand.slice(500, 900).map((hand) => {
      simulation.step(hand);
      return simulation.digest();
    });
    expect(again).toEqual(forward);
  });

  test('scrubbed backwards over every frame, it shows each as it was', () => {
    const simulation = createSimulation(run.setup);
    const frames: { bytes: Uint8Array; digest: string }[] = [];
    run.hand.forEach((hand, tick) => {
      simulation.step(hand);
      if (tick % 4 === 0) frames.push({ bytes: simulation.save(), digest: simulation.digest() });
    });
    for (const frame of frames.reverse()) {
      simulation.restore(frame.bytes);
      expect(simulation.digest()).toBe(frame.digest);
    }
  });
});

describe('bytes that are no state of this run', () => {
  const [run, other] = runs as [ScriptedRun, ScriptedRun];
  const bytes = simulationAt(run, 300).save();

  test.each([
    ['of another plate', simulationAt(other, 300).save()],
    ['cut short', bytes.slice(0, bytes.length - 9)],
    ['empty', new Uint8Array()],
    ['of anything else', new Uint8Array(4096).fill(173)],
  ])('%s are refused, and the run goes on as if nothing had been', (_, wrong) => {
    const simulation = simulationAt(run, 200);
    const untouched = simulationAt(run, 200);
    expect(() => simulation.restore(wrong)).toThrow(RangeError);
    for (const hand of run.hand.slice(200, 300)) {
      simulation.step(hand);
      untouched.step(hand);
    }
    expect(firstDifference(simulation.save(), untouched.save())).toBeNull();
  });
});
