import { describe, expect, test } from 'vitest';
import { createInputClock } from '../../renderer/bench/input-clock.ts';

/** Ticks stepped by a display that looks at the clock at these moments. */
function run(momentsMs: number[]) {
  const clock = createInputClock({ tickHz: 240, startMs: 0 });
  return { clock, ticks: momentsMs.reduce((sum, ms) => sum + clock.due(ms), 0) };
}

const every = (stepMs: number, untilMs: number) =>
  Array.from({ length: Math.round(untilMs / stepMs) }, (_, n) => (n + 1) * stepMs);

describe('ticks by the wall clock', () => {
  test.each([1000 / 30, 1000 / 60, 1000 / 144, 4, 250])('a look every %d ms steps the same number of ticks', (stepMs) => {
    expect(run(every(stepMs, 10_000)).ticks).toBe(Math.floor((10_000 - 8) * 0.24));
  });

  test('a stall is made good up to a second; the rest is dropped and counted', () => {
    const { clock, ticks } = run([100, 100 + 5000]);
    expect(ticks).toBe(22 + 240);
    expect(clock.droppedMs).toBeGreaterThan(3900);
    expect(clock.due(100 + 5000 + 100)).toBe(24);
  });

  test('the wait grows at once with late input, and shrinks slowly', () => {
    const clock = createInputClock({ tickHz: 240, startMs: 0 });
    clock.noteLateness(60);
    expect(clock.delayMs).toBe(64);
    clock.noteLateness(5);
    expect(clock.delayMs).toBeGreaterThan(60);
    for (let n = 0; n < 400; n += 1) clock.noteLateness(1);
    expect(clock.delayMs).toBeLessThan(9);
  });

  test('a wait has a limit, so that a broken clock cannot stop the bench', () => {
    const clock = createInputClock({ tickHz: 240, startMs: 0 });
    clock.noteLateness(1e9);
    expect(clock.delayMs).toBe(400);
  });

  test('no tick comes due while the bench is held, nor are they made good afterwards', () => {
    const clock = createInputClock({ tickHz: 240, startMs: 0 });
    const before = clock.due(1000);
    clock.pause(1000);
    expect(clock.due(5000)).toBe(0);
    clock.resume(61_000);
    expect(clock.due(61_100)).toBe(24);
    expect(clock.droppedMs).toBe(0);
    expect(before).toBeGreaterThan(230);
  });
});
