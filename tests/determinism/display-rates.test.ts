import { describe, expect, test } from 'vitest';
import { createInputClock } from '../../renderer/bench/input-clock.ts';
import { createSimulation, TICK_HZ } from '../../sim-core/index.ts';
import { type ScriptedRun, scriptedRuns } from './scripted-runs.ts';
import { stepThrough } from './step-through.ts';

const [run] = scriptedRuns() as [ScriptedRun];
const asRecorded = stepThrough(run);

/** Times at which a display shows a frame, ms, up to `untilMs`. */
const displays: Record<string, (untilMs: number) => number[]> = {
  '30 Hz': (untilMs) => everyMs(1000 / 30, untilMs),
  '60 Hz': (untilMs) => everyMs(1000 / 60, untilMs),
  '144 Hz': (untilMs) => everyMs(1000 / 144, untilMs),
  'stalls of 200 ms every second': (untilMs) => everyMs(1000 / 60, untilMs).filter((ms) => ms % 1000 < 800),
  'a stall of 3 s': (untilMs) => everyMs(1000 / 60, untilMs).filter((ms) => ms < 1000 || ms > 4000),
};

function everyMs(periodMs: number, untilMs: number): number[] {
  return Array.from({ length: Math.floor(untilMs / periodMs) }, (_, frame) => 5000.3 + frame * periodMs).map((ms) => ms - 5000.3);
}

const clocks: Record<string, () => (nowMs: number) => number> = {
  "the page's clock": () => {
    const clock = createInputClock({ tickHz: TICK_HZ, startMs: 0 });
    return (nowMs) => clock.due(nowMs);
  },
};

describe.each(Object.keys(clocks))('driven by %s', (clock) => {
  test.each(Object.keys(displays))('a display of %s shows the same run', (display) => {
    const due = clocks[clock]?.() as (nowMs: number) => number;
    const simulation = createSimulation(run.setup);
    const perSecond: string[] = [];
    let busiestFrame = 0;
    for (const nowMs of displays[display]?.(12_000) ?? []) {
      const ticks = due(nowMs);
      busiestFrame = Math.max(busiestFrame, ticks);
      for (let n = 0; n < ticks && simulation.tick < run.hand.length; n++) {
        simulation.step(run.hand[simulation.tick]!);
        if (simulation.tick % TICK_HZ === 0) perSecond.push(simulation.digest());
      }
    }
    expect(simulation.tick).toBe(run.hand.length);
    expect(perSecond).toEqual(asRecorded.perSecond);
    expect(busiestFrame).toBeLessThanOrEqual(TICK_HZ);
  });

  test.each(['30 Hz', '60 Hz', '144 Hz', 'stalls of 200 ms every second'])('time is neither lost nor gained at %s', (display) => {
    const due = clocks[clock]?.() as (nowMs: number) => number;
    const frames = displays[display]?.(7780) ?? [];
    const ticks = frames.reduce((sum, nowMs) => sum + due(nowMs), 0);
    const expected = ((frames.at(-1) ?? 0) / 1000) * TICK_HZ;
    // The page's clock trails the hand by a few milliseconds on purpose; see its delay.
    expect(ticks).toBeGreaterThan(expected - 4);
    expect(ticks).toBeLessThanOrEqual(expected);
  });
});
