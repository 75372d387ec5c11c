import { beforeEach, describe, expect, test } from 'vitest';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import { createGamepadHand, type PadState, stick } from '../../renderer/input/gamepad-hand.ts';
import { actionsByKey } from '../../renderer/input/hand-actions.ts';
import { createHandController, type HandController } from '../../renderer/input/hand-controller.ts';
import { type HandEvent, STILL } from '../../renderer/input/hand-event.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import { createKeyboardHand } from '../../renderer/input/keyboard-hand.ts';
import { createPointerHand, type PointerSample } from '../../renderer/input/pointer-hand.ts';
import { NO_EVENTS } from './bench-stand-in.ts';

const KEYS = { actions: actionsByKey(FIRST_HAND_SETTINGS), leansOnly: false };
const PAD = { ...FIRST_HAND_SETTINGS, leansOnly: false };
const start = { xMm: 0, yMm: 50, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
let sent: HandEvent[];
let hand: HandController;
const last = () => sent.at(-1) as HandEvent;

beforeEach(() => {
  sent = [];
  hand = createHandController(start, 0, limitsFor(160, 90), (event) => sent.push(event));
});

describe('keyboard', () => {
  const keys = () =>
    createKeyboardHand(hand, 10, KEYS, {
      onEnd: () => ended.push(1),
      onSetSpeed: (v) => speeds.push(v),
      onEye: (...move) => eyes.push(move),
    });
  let ended: number[];
  let speeds: number[];
  let eyes: unknown[];
  beforeEach(() => {
    ended = [];
    speeds = [];
    eyes = [];
  });

  test('an arrow moves at the set speed for as long as it is held, whatever the key repeat', () => {
    const keyboard = keys();
    keyboard.down('ArrowRight', 1000, false, false);
    for (let ms = 1030; ms < 3000; ms += 30) keyboard.down('ArrowRight', ms, true, false);
    keyboard.up('ArrowRight', 3000, false);
    expect(hand.poseAt(9000).xMm).toBeCloseTo(20, 9);
    expect(sent).toHaveLength(2);
  });

  test('V looks from the next place, once; a held J moves the head on with every repeat, and the torch stays', () => {
    const keyboard = keys();
    keyboard.down('KeyV', 0, false, false);
    keyboard.down('KeyV', 30, true, false);
    keyboard.down('KeyJ', 60, false, false);
    keyboard.down('KeyJ', 90, true, false);
    expect(eyes.map((told) => (told as unknown[])[0])).toEqual(['view', 'head-left', 'head-left']);
    expect(sent).toHaveLength(0);
  });

  test('two arrows keep the set speed along the diagonal', () => {
    const keyboard = keys();
    keyboard.down('ArrowRight', 0, false, false);
    keyboard.down('ArrowUp', 0, false, false);
    const { xMmPerS, yMmPerS } = last().rate ?? { xMmPerS: 0, yMmPerS: 0 };
    expect(Math.hypot(xMmPerS, yMmPerS)).toBeCloseTo(10, 9);
    expect(xMmPerS).toBeCloseTo(yMmPerS, 9);
  });

  test('the set speed changes in steps of 1 mm/s, in mid-movement too, and stops at its ends', () => {
    const keyboard = keys();
    keyboard.down('ArrowRight', 0, false, false);
    keyboard.down('Period', 1000, false, false);
    expect(last().rate?.xMmPerS).toBe(11);
    for (let n = 0; n < 200; n += 1) keyboard.down('Comma', 2000, true, false);
    expect(keyboard.setSpeedMmPerS).toBe(1);
    expect(speeds[0]).toBe(11);
  });

  test('Space is the trigger while held; L latches it; losing the focus lets go of everything', () => {
    const keyboard = keys();
    keyboard.down('Space', 0, false, false);
    expect(last().pose.trigger).toBe(true);
    keyboard.up('Space', 100, false);
    expect(last().pose.trigger).toBe(false);
    keyboard.down('KeyL', 200, false, false);
    keyboard.up('KeyL', 210, false);
    keyboard.down('ArrowRight', 300, false, false);
    expect(last().pose.trigger).toBe(true);
    keyboard.release(1300);
    expect(last()).toMatchObject({ rate: null, pose: { trigger: false } });
    expect(last().pose.xMm).toBeCloseTo(10, 9);
  });

  test('Shift is fine movement, E ends the run, other keys are not taken', () => {
    const keyboard = keys();
    keyboard.down('ArrowLeft', 0, false, true);
    expect(last().rate?.xMmPerS).toBe(-2.5);
    keyboard.up('ArrowLeft', 10, true);
    keyboard.down('KeyD', 10, false, false);
    keyboard.up('KeyD', 1010, false);
    expect(hand.poseAt(1010).leanXDeg).toBeCloseTo(24, 9);
    keyboard.down('KeyE', 1030, false, false);
    expect(ended).toHaveLength(1);
    expect(keyboard.down('Tab', 1040, false, false)).toBe(false);
  });
});

describe('mouse', () => {
  /** A view straight from above at 4 pixels a millimetre. */
  const pointer = () => createPointerHand(hand, (x, y) => ({ xMm: x / 4, yMm: 90 - y / 4 }), { pxPerMm: null, leansOnly: false });
  const move = (atMs: number, clientX: number, clientY: number, more: Partial<PointerSample> = {}): PointerSample => ({
    atMs,
    clientX,
    clientY,
    movementX: 0,
    movementY: 0,
    shift: false,
    buttons: 0,
    locked: false,
    ...more,
  });

  test('the torch is over the plate where the pointer is, and the stamp is the device’s own', () => {
    pointer().move(move(123.4, 40, 160));
    expect(last()).toMatchObject({ atMs: 123.4, pose: { xMm: 10, yMm: 50 } });
  });

  test('the wheel changes height, finely with Shift, and never below the plate', () => {
    const mouse = pointer();
    mouse.wheel(10, 100, false);
    expect(last().pose.heightMm).toBeCloseTo(7.6, 9);
    mouse.wheel(20, 100, true);
    expect(last().pose.heightMm).toBeCloseTo(7.52, 9);
    mouse.wheel(30, 10_000, false);
    expect(last().pose.heightMm).toBe(0);
  });

  test('Shift or the right button turns movement into lean; the torch stays and does not jump afterwards', () => {
    const mouse = pointer();
    mouse.move(move(10, 40, 160));
    mouse.move(move(20, 90, 130, { movementX: 50, movementY: -30, shift: true }));
    expect(last().pose).toMatchObject({ xMm: 10, yMm: 50, leanXDeg: 10, leanYDeg: 6 });
    mouse.move(move(30, 90, 130));
    expect(last().pose.xMm).toBeCloseTo(10, 9);
    mouse.move(move(40, 94, 130));
    expect(Math.abs(last().pose.xMm - 11)).toBeLessThan(1.4);
  });

  test('with the arc on, the difference left by leaning stays: the torch moves exactly as the mouse does', () => {
    const mouse = pointer();
    mouse.move(move(10, 40, 160));
    mouse.trigger(15, true);
    mouse.move(move(20, 60, 160, { movementX: 20, movementY: 0, buttons: 3 }));
    mouse.move(move(30, 60, 160, { buttons: 1 }));
    mouse.move(move(40, 100, 160, { buttons: 1 }));
    expect(last().pose.xMm).toBeCloseTo(20, 9);
    expect(last().pose.trigger).toBe(true);
  });

  test('a held pointer counts by movement alone', () => {
    const mouse = pointer();
    mouse.move(move(10, 400, 400, { movementX: 8, movementY: -4, locked: true }));
    expect(last().pose).toMatchObject({ xMm: 2, yMm: 51 });
  });
});

describe('gamepad', () => {
  const pad = (axes: number[], buttons: Record<number, number> = {}): PadState => ({
    axes,
    buttons: Array.from({ length: 17 }, (_, n) => ({ value: buttons[n] ?? 0, pressed: (buttons[n] ?? 0) > 0.5 })),
  });

  test('a stick at rest is not quite at zero and moves nothing', () => {
    expect(stick(0.1, -0.11, 0.16)).toEqual({ x: 0, y: 0 });
    createGamepadHand(hand, PAD, NO_EVENTS).poll(pad([0.1, -0.1, 0.05, 0]), 10);
    expect(sent).toHaveLength(0);
  });

  test('deflection is squared beyond the dead zone, keeps its direction, and is full at the rim', () => {
    expect(stick(1, 0, 0.16)).toEqual({ x: 1, y: 0 });
    const half = stick(0.4, 0.3, 0.16);
    expect(half.y / half.x).toBeCloseTo(0.75, 9);
    expect(Math.hypot(half.x, half.y)).toBeCloseTo(((0.5 - 0.16) / 0.84) ** 2, 9);
  });

  test('left stick forward moves away from the person; letting go stops', () => {
    const gamepad = createGamepadHand(hand, PAD, NO_EVENTS);
    gamepad.poll(pad([0, -1, 0, 0]), 0);
    expect(last().rate?.yMmPerS).toBe(70);
    gamepad.poll(pad([0, -1, 0, 0]), 100);
    expect(sent).toHaveLength(1);
    gamepad.poll(pad([0, 0, 0, 0]), 200);
    expect(hand.poseAt(900).yMm).toBeCloseTo(64, 9);
  });

  test('the right trigger lights the arc and does not chatter; left trigger lowers', () => {
    const gamepad = createGamepadHand(hand, PAD, NO_EVENTS);
    const pulls = [0.3, 0.55, 0.45, 0.4, 0.55, 0.2];
    const states = pulls.map((value, n) => {
      gamepad.poll(pad([0, 0, 0, 0], { 7: value }), n * 10);
      return sent.at(-1)?.pose.trigger ?? false;
    });
    expect(states).toEqual([false, true, true, true, true, false]);
    gamepad.poll(pad([0, 0, 0, 0], { 6: 1 }), 1000);
    expect(last().rate?.heightMmPerS).toBe(-8);
  });

  test('a pad looks from the next place at a press, and moves the head while its cross is held', () => {
    const told: unknown[] = [];
    const gamepad = createGamepadHand(hand, PAD, { ...NO_EVENTS, onEye: (...move) => told.push(move) });
    for (let n = 0; n < 3; n += 1) gamepad.poll(pad([0, 0, 0, 0], { 2: 1, 15: 1 }), n * 8);
    expect(told).toEqual([
      ['view', 0],
      ['head-right', 1],
      ['head-right', 1],
      ['head-right', 1],
    ]);
    expect(sent).toHaveLength(0);
  });

  test('a pad that is unplugged lets go of the trigger', () => {
    const gamepad = createGamepadHand(hand, PAD, NO_EVENTS);
    gamepad.poll(pad([0.8, 0, 0, 0], { 7: 1 }), 0);
    gamepad.poll(null, 100);
    expect(last()).toMatchObject({ rate: null, pose: { trigger: false } });
  });
});

describe('rolling a pierce upright', () => {
  const lean = (leanXDeg: number, leanYDeg: number) => hand.place(0, { leanXDeg, leanYDeg, trigger: true }, 'mouse');

  test('one press rolls 45 degrees upright in two seconds, in its own direction, and stops there; the arc stays lit', () => {
    lean(27, -36);
    hand.rollUpright(1000, 'keyboard');
    expect(hand.poseAt(2000)).toMatchObject({ leanXDeg: 13.5, leanYDeg: -18, trigger: true });
    expect(hand.poseAt(3000).leanXDeg).toBeCloseTo(0, 9);
    expect(hand.poseAt(9000)).toMatchObject({ xMm: 0, yMm: 50, leanXDeg: 0, leanYDeg: 0, trigger: true });
  });

  test('keys go on moving the torch while it rolls, and a new lean from any device ends the roll', () => {
    lean(45, 0);
    const keyboard = createKeyboardHand(hand, 10, KEYS, { ...NO_EVENTS, onSetSpeed: () => undefined });
    keyboard.down('KeyU', 0, false, false);
    keyboard.up('KeyU', 80, false);
    keyboard.down('ArrowRight', 1000, false, false);
    expect(hand.poseAt(1500)).toMatchObject({ xMm: 5, leanXDeg: 45 - 22.5 * 1.5 });
    hand.place(1600, { leanXDeg: 30 }, 'mouse');
    keyboard.up('ArrowRight', 1700, false);
    expect(hand.poseAt(4000).leanXDeg).toBe(30);
  });

  test('once upright it is over: a later lean stays', () => {
    lean(20, 0);
    hand.rollUpright(0, 'gamepad');
    hand.place(2000, { xMm: 1 }, 'mouse');
    hand.place(2100, { leanXDeg: 10 }, 'mouse');
    hand.place(2200, { xMm: 2 }, 'mouse');
    expect(hand.poseAt(5000).leanXDeg).toBe(10);
  });
});

test('the record names the device that pulled the trigger', () => {
  hand.place(10, { xMm: 3 }, 'mouse');
  hand.drive(20, { ...STILL, xMmPerS: 1 }, 'keyboard');
  hand.place(30, { trigger: true }, 'gamepad');
  hand.place(40, { heightMm: 2 }, 'mouse');
  expect(hand.device).toBe('gamepad');
});
