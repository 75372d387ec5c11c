import { describe, expect, test } from 'vitest';
import { createPace } from '../../renderer/bench/pace.ts';
import { alongHandle, FAN, fanFoot, onRibbon, RIBBON, RING, ringRadius, standAside } from '../../renderer/bench/torch-cues.ts';

describe('the pace', () => {
  test('starts where the hand is, goes on evenly, and waits for a hand that falls behind', () => {
    const pace = createPace(10, 100);
    expect(pace.at('wait-through', 0, 0.5)).toBeNull();
    expect(pace.at('move', 1, 0.5)).toBe(0.5);
    expect(pace.at('move', 1.2, 1.5)).toBeCloseTo(2.5, 9);
    expect(pace.at('faster', 9, 1.5)).toBeCloseTo(5.5, 9);
    expect(pace.at('release', 9.1, 1.5)).toBeNull();
  });

  test('goes a little past the end and no farther', () => {
    const pace = createPace(10, 100);
    pace.at('move', 0, 99);
    expect(pace.at('finish', 3, 103)).toBe(106);
  });

  test('sends the hand back to where the metal was last cut, and stays there until it is cut again', () => {
    const pace = createPace(10, 100);
    pace.at('move', 0, 40);
    expect(pace.at('cut-lost', 0.5, 44)).toBe(34);
    expect(pace.at('cut-lost', 0.9, 35)).toBe(34);
    expect(pace.at('move', 1, 34)).toBe(34);
    expect(pace.at('arc-out', 2, 38)).toBe(33);
  });
});

describe('the drawing by the torch', () => {
  test('shows a right speed in the middle third of the ribbon, and keeps what is beyond at its ends', () => {
    expect(onRibbon(8, 8, 16)).toBeCloseTo(RIBBON.width / 3, 9);
    expect(onRibbon(16, 8, 16)).toBeCloseTo((2 * RIBBON.width) / 3, 9);
    expect(onRibbon(0, 8, 16)).toBe(0);
    expect(onRibbon(90, 8, 16)).toBe(RIBBON.width);
  });

  test('keeps the ring between the thin ones while stand-off is right, smaller below, wider above', () => {
    expect(ringRadius(0.8, 0.8, 3)).toBe(RING.low);
    expect(ringRadius(3, 0.8, 3)).toBeCloseTo(RING.high, 9);
    expect(ringRadius(0, 0.8, 3)).toBeLessThan(RING.low);
    expect(ringRadius(40, 0.8, 3)).toBe(RING.most);
  });

  test('lets sparks that trail hang to the left of straight down', () => {
    expect(fanFoot(0)).toEqual({ x: FAN.x, y: FAN.y + FAN.length });
    expect(fanFoot(30).x).toBeLessThan(FAN.x);
    expect(fanFoot(-20).x).toBeGreaterThan(FAN.x);
  });

  test('draws the handle along its own axis', () => {
    const tip = { xMm: 10, yMm: 20, heightMm: 2 };
    expect(alongHandle(tip, 0, 0, 50)).toEqual({ x: 10, y: 20, z: 52 });
    const leaning = alongHandle(tip, 45, 0, 50);
    expect(leaning.x - 10).toBeCloseTo(leaning.z - 2, 9);
    expect(Math.hypot(leaning.x - 10, leaning.z - 2)).toBeCloseTo(50, 9);
  });
});

test('ribbon and fan stay where they can be seen: aside of a tip at either edge, under one in the middle', () => {
  const width = 800;
  expect([300, 500].map((x) => standAside(x, width))).toEqual([0, 0]);
  for (const x of [0, 40, 780, 800]) {
    const at = x + standAside(x, width);
    expect(at + RIBBON.left, `left of ${x}`).toBeGreaterThan(8);
    expect(at + FAN.x, `right of ${x}`).toBeLessThan(width - 8);
  }
  expect(standAside(10, 200), 'a frame too narrow for it').toBe(0);
});
