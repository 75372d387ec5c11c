import { expect, test } from 'vitest';
import { startsClock } from '../../renderer/bench/clock-start.ts';
import { type HandEvent, STILL } from '../../renderer/input/hand-event.ts';
import type { HandPose } from '../../sim-core/index.ts';

const POSE: HandPose = { xMm: 0, yMm: 50, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
const NOW_MS = 1000;
const event = (change: Partial<HandPose> = {}, more: Partial<HandEvent> = {}): HandEvent => ({
  atMs: NOW_MS,
  pose: { ...POSE, ...change },
  rate: null,
  ...more,
});
const starts = (one: HandEvent, halted = false) => startsClock(one, POSE, halted, NOW_MS);

test('a torch that is moved, set moving or fired starts the clock; a hand that only rests does not', () => {
  expect(starts(event({ xMm: 0.5 }))).toBe(true);
  expect(starts(event({ leanYDeg: 1 }))).toBe(true);
  expect(starts(event({ trigger: true }))).toBe(true);
  expect(starts(event({}, { rate: { ...STILL, xMmPerS: 5 } }))).toBe(true);
  expect(starts(event())).toBe(false);
  expect(starts(event(), true)).toBe(false);
});

test('after a halt a movement from before it starts nothing; a trigger and a stick count whenever they were told', () => {
  const late = { atMs: NOW_MS - 201 };
  expect(starts(event({ xMm: 0.5 }, late), true)).toBe(false);
  expect(starts(event({ xMm: 0.5 }, late))).toBe(true);
  expect(starts(event({ xMm: 0.5 }, { atMs: NOW_MS - 100 }), true)).toBe(true);
  expect(starts(event({ trigger: true }, late), true)).toBe(true);
});
