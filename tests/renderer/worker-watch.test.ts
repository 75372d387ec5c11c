import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { type WorkerWatch, watchWorker } from '../../renderer/bench/worker-watch.ts';

let told: string[];
let watch: WorkerWatch;

beforeEach(() => {
  vi.useFakeTimers();
  told = [];
  watch = watchWorker(
    () => told.push('silent'),
    () => told.push('heard'),
  );
});

afterEach(() => {
  watch.close();
  vi.useRealTimers();
});

test('a silence of five seconds is told of once, and so is its end', () => {
  watch.expect(true);
  vi.advanceTimersByTime(4900);
  expect(told).toEqual([]);
  vi.advanceTimersByTime(60_000);
  expect(told).toEqual(['silent']);
  watch.heard();
  watch.heard();
  expect(told).toEqual(['silent', 'heard']);
  vi.advanceTimersByTime(5000);
  expect(told).toEqual(['silent', 'heard', 'silent']);
});

test('a worker that says something now and then is not silent', () => {
  watch.expect(true);
  for (let second = 0; second < 60; second += 4) {
    vi.advanceTimersByTime(4000);
    watch.heard();
  }
  expect(told).toEqual([]);
});

test('nothing is waited for while the clock of the run stands still', () => {
  vi.advanceTimersByTime(60_000);
  watch.expect(true);
  vi.advanceTimersByTime(4000);
  watch.expect(false);
  vi.advanceTimersByTime(60_000);
  watch.expect(true);
  vi.advanceTimersByTime(4000);
  expect(told).toEqual([]);
  vi.advanceTimersByTime(1000);
  expect(told).toEqual(['silent']);
});

test('a sentence stays when the run is ended in a silence: its marks wait for the worker too', () => {
  watch.expect(true);
  vi.advanceTimersByTime(5000);
  watch.expect(false);
  expect(told).toEqual(['silent']);
  watch.heard();
  expect(told).toEqual(['silent', 'heard']);
});
