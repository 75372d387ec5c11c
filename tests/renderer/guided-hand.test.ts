import { describe, expect, test } from 'vitest';
import { createHandTrack } from '../../renderer/bench/hand-track.ts';
import { createHandController } from '../../renderer/input/hand-controller.ts';
import { type HandEvent, STILL } from '../../renderer/input/hand-event.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';

const start = { xMm: 50, yMm: 20, heightMm: 2, leanXDeg: 0, leanYDeg: 0, trigger: true };

/** A circle arm of 30 mm about (80, 20), and a straight edge along y = 20 that lets nothing farther away. */
const round = limitsFor(160, 90, (xMm, yMm) => {
  const scale = 30 / Math.hypot(xMm - 80, yMm - 20);
  return { xMm: 80 + (xMm - 80) * scale, yMm: 20 + (yMm - 20) * scale };
});
const along = limitsFor(160, 90, (xMm, yMm) => ({ xMm, yMm: Math.min(20, yMm) }));

describe('a guide', () => {
  test('holds a pointer and a driven hand alike; leaning on it leaves no way to make up afterwards', () => {
    const hand = createHandController(start, 0, along, () => undefined);
    hand.place(10, { xMm: 60, yMm: 33 }, 'mouse');
    expect(hand.poseAt(10)).toMatchObject({ xMm: 60, yMm: 20 });
    hand.drive(100, { ...STILL, xMmPerS: 10, yMmPerS: 5 }, 'keyboard');
    expect(hand.poseAt(1100).xMm).toBeCloseTo(70, 9);
    expect(hand.poseAt(1100).yMm).toBe(20);
    hand.drive(1100, { ...STILL, yMmPerS: -5 }, 'keyboard');
    expect(hand.poseAt(1300).yMm).toBeCloseTo(19, 9);
  });

  test('turns a steady push into travel round a circle, at the pace of the part of the push that lies along it', () => {
    const hand = createHandController(start, 0, round, () => undefined);
    hand.drive(0, { ...STILL, yMmPerS: 10 }, 'gamepad');
    const soon = hand.poseAt(500);
    expect(Math.hypot(soon.xMm - 80, soon.yMm - 20)).toBeCloseTo(30, 9);
    // Of dθ/dt = (v / r) cos θ from θ = 0: sin θ = tanh(v t / r).
    const turned = Math.asin(Math.tanh((10 * 0.5) / 30));
    expect(soon.yMm - 20).toBeCloseTo(30 * Math.sin(turned), 2);
    const late = hand.poseAt(60_000);
    expect(late.yMm).toBeCloseTo(50, 6);
  });

  test('is felt the same by the page and by the worker that steps the ticks, whichever moments each asks for', () => {
    const events: HandEvent[] = [];
    const hand = createHandController(start, 0, round, (event) => events.push(event));
    const track = createHandTrack(start, 0, round);
    hand.drive(3, { ...STILL, xMmPerS: 4, yMmPerS: 11 }, 'gamepad');
    hand.drive(911, { ...STILL, xMmPerS: 14, yMmPerS: 2 }, 'gamepad');
    for (const event of events) track.push(event);
    let stepped = start as ReturnType<typeof track.poseAt>;
    for (let tick = 0; tick <= 480; tick += 1) stepped = track.poseAt((tick * 1000) / 240);
    const asked = hand.poseAt(2000);
    expect(stepped.xMm).toBeCloseTo(asked.xMm, 9);
    expect(stepped.yMm).toBeCloseTo(asked.yMm, 9);
  });
});
