// Keys and buttons of one's own, two-handed work, the pad that is felt, and a measured mouse.
import { beforeEach, describe, expect, test } from 'vitest';
import { handSettingsSchema } from '../../electron/contract.ts';
import { controlWords, keyName } from '../../renderer/input/control-names.ts';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import { createGamepadHand, type PadState } from '../../renderer/input/gamepad-hand.ts';
import {
  actionsByKey,
  buttonTakenBy,
  KEY_ACTIONS,
  KEY_DEFAULTS,
  keyTakenBy,
  mayBeBound,
  PAD_ACTIONS,
} from '../../renderer/input/hand-actions.ts';
import { createHandController, type HandController } from '../../renderer/input/hand-controller.ts';
import type { HandEvent } from '../../renderer/input/hand-event.ts';
import { limitsFor } from '../../renderer/input/hand-pose.ts';
import { createKeyboardHand } from '../../renderer/input/keyboard-hand.ts';
import { createRumbleWatch, type Rumble, type RumbleView } from '../../renderer/input/pad-rumble.ts';
import { createPointerHand } from '../../renderer/input/pointer-hand.ts';
import { isTextKey, say } from '../../renderer/text/say.ts';
import { NO_EVENTS } from './bench-stand-in.ts';

let sent: HandEvent[];
let hand: HandController;
const last = () => sent.at(-1) as HandEvent;
beforeEach(() => {
  sent = [];
  const start = { xMm: 0, yMm: 50, heightMm: 8, leanXDeg: 0, leanYDeg: 0, trigger: false };
  hand = createHandController(start, 0, limitsFor(160, 90), (event) => sent.push(event));
});
const pad = (axes: number[], buttons: Record<number, number> = {}): PadState => ({
  axes,
  buttons: Array.from({ length: 17 }, (_, n) => ({ value: buttons[n] ?? 0, pressed: (buttons[n] ?? 0) > 0.5 })),
});

describe('bindings', () => {
  test('no two actions begin with one key, none with a key that means something everywhere, and all have words', () => {
    const codes = Object.values(KEY_DEFAULTS).flat();
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes.filter((code) => !mayBeBound(code))).toEqual([]);
    expect([...KEY_ACTIONS, ...PAD_ACTIONS].filter((action) => !isTextKey(`action.${action}`))).toEqual([]);
    expect(['Tab', 'Escape', 'Enter', 'KeyM', 'ShiftLeft', 'F5'].filter(mayBeBound)).toEqual([]);
  });

  test('what is stored is what the host takes, and an action without an entry keeps its keys', () => {
    const settings = { ...FIRST_HAND_SETTINGS, keys: { trigger: ['Numpad0'] }, padButtons: { trigger: 5 } };
    expect(handSettingsSchema.parse(settings)).toEqual(settings);
    expect(handSettingsSchema.safeParse({ ...settings, keys: { trigger: ['<b>'] } }).success).toBe(false);
    const map = actionsByKey(settings);
    expect([map.get('Numpad0'), map.get('Space'), map.get('KeyR')]).toEqual(['trigger', undefined, 'raise']);
  });

  test('a key or button that is taken is told by what has it', () => {
    expect(keyTakenBy('KeyA', 'trigger', FIRST_HAND_SETTINGS)).toBe('lean-left');
    expect(keyTakenBy('Space', 'trigger', FIRST_HAND_SETTINGS)).toBeNull();
    expect(keyTakenBy('KeyX', 'trigger', FIRST_HAND_SETTINGS)).toBeNull();
    expect(buttonTakenBy(6, 'trigger', FIRST_HAND_SETTINGS)).toBe('lower');
  });

  test('sentences name the keys and buttons of today', () => {
    const rebound = controlWords({ ...FIRST_HAND_SETTINGS, keys: { upright: ['KeyJ'] } });
    expect(say('help.squareness.better', rebound)).toContain('J or the middle button');
    expect(controlWords(FIRST_HAND_SETTINGS)).toMatchObject({
      triggerKeys: 'Space',
      raiseKeys: 'R or Page Up',
      moveKeys: 'arrow keys',
      leanKeys: 'A, D, W, S',
      triggerPad: 'right trigger',
      moveStick: 'left stick',
    });
    const own = controlWords({
      ...FIRST_HAND_SETTINGS,
      keys: { trigger: ['Numpad0'] },
      padButtons: { trigger: 5 },
      padMoves: 'right',
    });
    expect(own).toMatchObject({ triggerKeys: 'Numpad 0', triggerPad: 'right shoulder', moveStick: 'right stick' });
    expect(keyName('Digit4')).toBe('4');
  });

  test('a key of one’s own does what the old one did, and the old one nothing', () => {
    const actions = actionsByKey({ ...FIRST_HAND_SETTINGS, keys: { 'move-right': ['KeyX'] } });
    const keyboard = createKeyboardHand(hand, 10, { actions, leansOnly: false }, NO_EVENTS);
    expect(keyboard.down('ArrowRight', 0, false, false)).toBe(false);
    expect(keyboard.down('KeyX', 0, false, false)).toBe(true);
    expect(hand.poseAt(1000).xMm).toBeCloseTo(10, 9);
  });

  test('of two keys for one thing, letting go of one leaves the other', () => {
    const keyboard = createKeyboardHand(hand, 10, { actions: actionsByKey(FIRST_HAND_SETTINGS), leansOnly: false }, NO_EVENTS);
    keyboard.down('KeyR', 0, false, false);
    keyboard.down('PageUp', 0, false, false);
    keyboard.up('KeyR', 1000, false);
    expect(hand.poseAt(2000).heightMm).toBeCloseTo(20, 9);
  });
});

describe('gamepad', () => {
  const gamepad = (setup: Partial<typeof FIRST_HAND_SETTINGS> & { leansOnly?: boolean } = {}, onEnd = () => undefined) =>
    createGamepadHand(hand, { ...FIRST_HAND_SETTINGS, leansOnly: false, ...setup }, { ...NO_EVENTS, onEnd });

  test('the dead zone is as it is set', () => {
    gamepad({ padDeadZone: 0.3 }).poll(pad([0.28, 0, 0, 0]), 0);
    expect(sent).toHaveLength(0);
    gamepad({ padDeadZone: 0.05 }).poll(pad([0.28, 0, 0, 0]), 0);
    expect(last().rate?.xMmPerS).toBeCloseTo(((0.28 - 0.05) / 0.95) ** 2 * 70, 1);
  });

  test('where all movement was stopped from elsewhere, a stick still tilted moves on, and a trigger still pulled stays let go', () => {
    const one = gamepad();
    one.poll(pad([1, 0, 0, 0], { 7: 1 }), 0);
    hand.rest(100);
    one.letGo();
    one.poll(pad([1, 0, 0, 0], { 7: 1 }), 110);
    expect(last()).toMatchObject({ rate: { xMmPerS: 70 }, pose: { trigger: false } });
    one.poll(pad([1, 0, 0, 0]), 120);
    one.poll(pad([1, 0, 0, 0], { 7: 1 }), 130);
    expect(last().pose.trigger).toBe(true);
  });

  test('after everything was let go no button counts before it was seen up, and a latch that was on needs one press, not two', () => {
    let ended = 0;
    const one = gamepad({}, () => {
      ended += 1;
    });
    one.poll(pad([0, 0, 0, 0], { 3: 1 }), 0);
    one.poll(pad([0, 0, 0, 0]), 10);
    expect(last().pose.trigger).toBe(true);
    hand.rest(20);
    one.letGo();
    const before = sent.length;
    one.poll(pad([0, 0, 0, 0], { 4: 1, 7: 1, 9: 1 }), 30);
    expect([sent.length, ended]).toEqual([before, 0]);
    one.poll(pad([0, 0, 0, 0]), 40);
    one.poll(pad([0, 0, 0, 0], { 3: 1, 9: 1 }), 50);
    expect(last().pose.trigger).toBe(true);
    expect(ended).toBe(1);
  });

  test('half a pull on the trigger for height goes half as fast', () => {
    gamepad({ padDeadZone: 0.1 }).poll(pad([0, 0, 0, 0], { 6: 0.55 }), 0);
    expect(last().rate?.heightMmPerS).toBeCloseTo(-4, 9);
  });

  test('buttons of one’s own; sticks changed over; the button for fine movement; the button that ends', () => {
    let ended = 0;
    const own = gamepad({ padButtons: { trigger: 0, end: 1 }, padMoves: 'right' }, () => {
      ended += 1;
    });
    own.poll(pad([0, 0, 1, 0], { 0: 1, 5: 1 }), 0);
    expect(last()).toMatchObject({ pose: { trigger: true }, rate: { xMmPerS: 17.5, leanXDegPerS: 0 } });
    own.poll(pad([0, 0, 0, 0], { 1: 1 }), 10);
    own.poll(pad([0, 0, 0, 0], { 1: 1 }), 20);
    expect(ended).toBe(1);
  });

  test('the latch keeps the trigger pulled until it is pressed again, or the trigger is pulled and let go', () => {
    const one = gamepad();
    const states = [{ 3: 1 }, {}, { 3: 1 }, {}, { 3: 1 }, {}, { 7: 1 }, {}].map((buttons, n) => {
      one.poll(pad([0, 0, 0, 0], buttons as Record<number, number>), n * 10);
      return last().pose.trigger;
    });
    expect(states).toEqual([true, true, false, false, true, true, true, false]);
  });

  test('it is felt when the arc breaks through and when it stops hard, once an event', () => {
    const watch = createRumbleWatch();
    const view = (change: Partial<RumbleView>): RumbleView => ({
      trigger: true,
      onMetal: true,
      underMm3PerS: 0,
      standOffMm: 1.5,
      ...change,
    });
    const felt: [number, Partial<RumbleView>, Rumble | null][] = [
      [0, { onMetal: false }, null],
      [1000, {}, null],
      [1500, { underMm3PerS: 40 }, 'break-through'],
      [1550, { underMm3PerS: 0 }, null],
      [2100, { underMm3PerS: 40 }, null],
      [3000, { onMetal: false }, 'hard-stop'],
      [4000, { onMetal: false, trigger: false, standOffMm: 0 }, 'hard-stop'],
      [5000, { onMetal: false, trigger: false, standOffMm: 0 }, null],
      [6000, { onMetal: true, underMm3PerS: 40, standOffMm: 1 }, 'break-through'],
      [7000, { onMetal: false, trigger: false }, null],
    ];
    expect(felt.map(([ms, change]) => watch(view(change), ms))).toEqual(felt.map(([, , what]) => what));
  });
});

describe('two hands', () => {
  test('keys that would move lean, at the pace of a lean', () => {
    const keyboard = createKeyboardHand(hand, 10, { actions: actionsByKey(FIRST_HAND_SETTINGS), leansOnly: true }, NO_EVENTS);
    keyboard.down('ArrowRight', 0, false, false);
    expect(hand.poseAt(500)).toMatchObject({ xMm: 0, leanXDeg: 12 });
  });

  test('either stick leans, and no stick moves', () => {
    createGamepadHand(hand, { ...FIRST_HAND_SETTINGS, leansOnly: true }, NO_EVENTS).poll(pad([1, 0, 0, -1]), 0);
    expect(last().rate).toMatchObject({ xMmPerS: 0, yMmPerS: 0, leanXDegPerS: 36, leanYDegPerS: 36 });
  });

  test('the mouse leans without a button while keys move the torch', () => {
    const mouse = createPointerHand(hand, () => ({ xMm: 77, yMm: 7 }), { pxPerMm: null, leansOnly: true });
    hand.drive(0, { xMmPerS: 10, yMmPerS: 0, heightMmPerS: 0, leanXDegPerS: 0, leanYDegPerS: 0, uprightDegPerS: 0 }, 'keyboard');
    const sample = { clientX: 9, clientY: 9, movementX: 50, movementY: 0, shift: false, buttons: 0, locked: false };
    mouse.move({ ...sample, atMs: 1000 });
    expect(hand.poseAt(2000)).toMatchObject({ xMm: 20, leanXDeg: 10 });
  });
});

describe('a measured mouse', () => {
  const mouse = () => createPointerHand(hand, () => ({ xMm: 77, yMm: 7 }), { pxPerMm: 12.5, leansOnly: false });
  const sample = {
    atMs: 10,
    clientX: 400,
    clientY: 300,
    movementX: 1250,
    movementY: -250,
    shift: false,
    buttons: 0,
    locked: true,
  };

  test('100 mm of the hand are 100 mm of the torch, wherever the pointer is on the screen', () => {
    mouse().move(sample);
    expect(last().pose.xMm).toBeCloseTo(100, 9);
    expect(last().pose.yMm).toBeCloseTo(70, 9);
  });

  test('it moves nothing while it is not held: there the scale of the hand would not be kept', () => {
    mouse().move({ ...sample, locked: false });
    expect(sent).toHaveLength(0);
  });
});
