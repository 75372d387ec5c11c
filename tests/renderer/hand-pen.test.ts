// A pen is the torch: where it is, how it leans, what pulls its trigger; each figure worked out here from the angle itself.
import { beforeEach, describe, expect, test } from 'vitest';
import { createHandController, type HandController } from '../../renderer/input/hand-controller.ts';
import type { HandEvent } from '../../renderer/input/hand-event.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import { createPenHand, type PenSample, type PenSetup } from '../../renderer/input/pen-hand.ts';
import { penLean } from '../../renderer/input/pen-lean.ts';

let sent: HandEvent[];
let hand: HandController;
const last = () => sent.at(-1) as HandEvent;
const SETUP: PenSetup = {
  penTrigger: 'tip',
  penPressure: 0.25,
  penTilt: 'true',
  restTiltXDeg: 0,
  restTiltYDeg: 0,
  pxPerMm: null,
  leans: 'both',
};
/** Straight from above, 4 px a mm. */
const pen = (setup: Partial<PenSetup> = {}) =>
  createPenHand(hand, (x, y) => ({ xMm: x / 4, yMm: 90 - y / 4 }), { ...SETUP, ...setup });
const at = (atMs: number, clientX: number, clientY: number, more: Partial<PenSample> = {}): PenSample => ({
  atMs,
  clientX,
  clientY,
  shift: false,
  buttons: 0,
  pressure: 0,
  twist: 0,
  tiltX: 0,
  tiltY: 0,
  ...more,
});

beforeEach(() => {
  sent = [];
  const start = { xMm: 0, yMm: 50, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
  hand = createHandController(start, 0, limitsFor(160, 90), (event) => sent.push(event));
});

describe('lean', () => {
  test('tilt is lean; the screen’s y runs toward the person, the plate’s away', () => {
    expect(penLean({ tiltX: 20, tiltY: -12 })).toEqual({ xDeg: 20, yDeg: 12 });
  });

  test('from altitude and azimuth it is the same lean: the axis projected on each plane', () => {
    // An axis 30 degrees from upright toward the azimuth has tan 30 as its whole slope.
    for (const azimuthDeg of [0, 40, 90, 200, 315]) {
      const azimuthAngle = (azimuthDeg * Math.PI) / 180;
      const altitudeAngle = (60 * Math.PI) / 180;
      const { xDeg, yDeg } = penLean({ tiltX: 0, tiltY: 0, altitudeAngle, azimuthAngle });
      const slope = Math.hypot(Math.tan((xDeg * Math.PI) / 180), Math.tan((yDeg * Math.PI) / 180));
      expect(slope).toBeCloseTo(Math.tan(Math.PI / 6), 9);
      expect(Math.atan2(-Math.tan((yDeg * Math.PI) / 180), Math.tan((xDeg * Math.PI) / 180))).toBeCloseTo(
        Math.atan2(Math.sin(azimuthAngle), Math.cos(azimuthAngle)),
        9,
      );
    }
    expect(penLean({ tiltX: 0, tiltY: 0, altitudeAngle: Math.PI / 2, azimuthAngle: 1 })).toEqual({ xDeg: 0, yDeg: 0 });
  });

  test('as it leans, from how it is held at ease, or not at all', () => {
    pen().move(at(10, 40, 160, { tiltX: 30, tiltY: 10 }));
    expect(last().pose).toMatchObject({ leanXDeg: 30, leanYDeg: -10 });
    pen({ penTilt: 'from-rest', restTiltXDeg: 28, restTiltYDeg: -9 }).move(at(20, 40, 160, { tiltX: 30, tiltY: 10 }));
    expect(last().pose.leanXDeg).toBeCloseTo(2, 9);
    expect(last().pose.leanYDeg).toBeCloseTo(-1, 9);
    hand.place(30, { leanXDeg: 5, leanYDeg: 0 }, 'keyboard');
    pen({ penTilt: 'off' }).move(at(40, 40, 160, { tiltX: 30, tiltY: 10 }));
    expect(last().pose).toMatchObject({ leanXDeg: 5, leanYDeg: 0 });
  });

  test('a pen that knows no tilt leaves a lean alone, and leans with Shift by its movement', () => {
    hand.place(0, { leanXDeg: 12 }, 'keyboard');
    const plain = pen();
    plain.move(at(10, 40, 160));
    expect(last().pose.leanXDeg).toBe(12);
    plain.move(at(20, 90, 160, { shift: true }));
    expect(last().pose).toMatchObject({ leanXDeg: 22, xMm: 10 });
  });
});

describe('trigger', () => {
  const pulls = (setup: Partial<PenSetup>, samples: Partial<PenSample>[]) => {
    const one = pen(setup);
    return samples.map((sample, n) => {
      one.move(at(10 * n, 40, 160, sample));
      return last().pose.trigger;
    });
  };

  test('the tip pressed down, with room so that it does not chatter', () => {
    const down = (pressure: number) => ({ pressure, buttons: 1 });
    expect(pulls({}, [down(0.1), down(0.26), down(0.2), down(0.16), down(0.14), { pressure: 0 }])).toEqual([
      false,
      true,
      true,
      true,
      false,
      false,
    ]);
  });

  test('or the button on the barrel, while the tip is up too', () => {
    expect(pulls({ penTrigger: 'barrel' }, [{ buttons: 1, pressure: 0.9 }, { buttons: 2 }, { buttons: 0 }])).toEqual([
      false,
      true,
      false,
    ]);
  });

  test('a pen that goes out of reach lets go', () => {
    const one = pen();
    one.move(at(10, 40, 160, { pressure: 0.8, buttons: 1 }));
    one.away(20);
    expect(last().pose.trigger).toBe(false);
  });
});

describe('place and height', () => {
  test('the torch is under the pen; measured, it goes as far as the hand and comes back where it was left', () => {
    pen().move(at(10, 40, 160));
    expect(last().pose).toMatchObject({ xMm: 10, yMm: 50 });
    const measured = pen({ pxPerMm: 8 });
    measured.move(at(20, 100, 100));
    measured.move(at(30, 900, 100));
    expect(last().pose.xMm).toBeCloseTo(110, 9);
    measured.away(40);
    measured.move(at(50, 100, 300));
    measured.move(at(60, 180, 300));
    expect(last().pose.xMm).toBeCloseTo(120, 9);
    expect(last().pose.yMm).toBeCloseTo(50, 9);
  });

  test('with the barrel held it sets the height, by moving and by turning; the torch stays where it is', () => {
    const one = pen();
    one.move(at(10, 40, 160));
    one.move(at(20, 40, 260, { buttons: 2 }));
    expect(last().pose).toMatchObject({ xMm: 10, yMm: 50 });
    expect(last().pose.heightMm).toBeCloseTo(5, 9);
    one.move(at(30, 40, 260, { buttons: 2, twist: 350 }));
    // Ten degrees back, not 350 on.
    expect(last().pose.heightMm).toBeCloseTo(5.3, 9);
    one.move(at(40, 40, 260));
    expect(last().pose).toMatchObject({ xMm: 10, yMm: 50 });
  });
});

describe('two hands', () => {
  test('another device leans: the pen’s tilt is nothing', () => {
    hand.place(0, { leanXDeg: 15 }, 'gamepad');
    pen({ leans: 'other' }).move(at(10, 40, 160, { tiltX: 30 }));
    expect(last().pose).toMatchObject({ leanXDeg: 15, xMm: 10 });
  });

  test('the pen leans: where it is moves nothing', () => {
    hand.place(0, { xMm: 33 }, 'mouse');
    pen({ leans: 'pen' }).move(at(10, 400, 160, { tiltX: 30 }));
    expect(last().pose).toMatchObject({ leanXDeg: 30, xMm: 33 });
  });
});
