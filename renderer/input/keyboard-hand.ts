import type { HandController } from './hand-controller.ts';
import { STILL, sameRate } from './hand-event.ts';

/** What a key does while the bench has the focus. Shown in the key help, so the help cannot disagree with the keys. */
export const KEY_ACTIONS = {
  ArrowLeft: 'move-left',
  ArrowRight: 'move-right',
  ArrowUp: 'move-away',
  ArrowDown: 'move-near',
  PageUp: 'raise',
  PageDown: 'lower',
  KeyR: 'raise',
  KeyF: 'lower',
  KeyA: 'lean-left',
  KeyD: 'lean-right',
  KeyW: 'lean-away',
  KeyS: 'lean-near',
  KeyU: 'upright',
  Space: 'trigger',
  KeyL: 'latch',
  Period: 'set-speed-up',
  Comma: 'set-speed-down',
  KeyE: 'end',
} as const;
export type KeyAction = (typeof KEY_ACTIONS)[keyof typeof KEY_ACTIONS];

export const SET_SPEED_LOW_MM_PER_S = 1;
export const SET_SPEED_HIGH_MM_PER_S = 80;
const RAISE_MM_PER_S = 6;
const LEAN_DEG_PER_S = 24;
/** Shift makes every movement this much finer. */
const FINE = 0.25;

export interface KeyboardHand {
  /** True when the key was one of the bench's. */
  down(code: string, atMs: number, repeat: boolean, fine: boolean): boolean;
  up(code: string, atMs: number, fine: boolean): boolean;
  /** Focus lost: every key counts as let go. */
  release(atMs: number): void;
  readonly setSpeedMmPerS: number;
}

/** Turns keys into rates of the hand: arrows move at the set speed, exactly, whatever the key repeat or frame rate. */
export function createKeyboardHand(
  hand: HandController,
  startSpeedMmPerS: number,
  events: { onEnd(): void; onSetSpeed(mmPerS: number): void },
): KeyboardHand {
  const held = new Set<KeyAction>();
  let setSpeed = startSpeedMmPerS;
  let latched = false;

  const axis = (plus: KeyAction, minus: KeyAction) => (held.has(plus) ? 1 : 0) - (held.has(minus) ? 1 : 0);

  function drive(atMs: number, fine: boolean): void {
    const scale = fine ? FINE : 1;
    const x = axis('move-right', 'move-left');
    const y = axis('move-away', 'move-near');
    const height = axis('raise', 'lower');
    const leanX = axis('lean-right', 'lean-left');
    const leanY = axis('lean-away', 'lean-near');
    // Two arrows together keep the set speed along the diagonal.
    const along = (setSpeed * scale) / Math.max(1, Math.hypot(x, y));
    const rate = {
      ...STILL,
      xMmPerS: x * along,
      yMmPerS: y * along,
      heightMmPerS: height * RAISE_MM_PER_S * scale,
      leanXDegPerS: leanX * LEAN_DEG_PER_S * scale,
      leanYDegPerS: leanY * LEAN_DEG_PER_S * scale,
    };
    hand.drive(atMs, sameRate(rate, STILL) ? null : rate, 'keyboard');
  }

  function changeSetSpeed(step: number, atMs: number, fine: boolean): void {
    setSpeed = Math.min(SET_SPEED_HIGH_MM_PER_S, Math.max(SET_SPEED_LOW_MM_PER_S, setSpeed + step));
    events.onSetSpeed(setSpeed);
    if (held.size > 0) drive(atMs, fine);
  }

  return {
    get setSpeedMmPerS() {
      return setSpeed;
    },
    down(code, atMs, repeat, fine) {
      const action = (KEY_ACTIONS as Record<string, KeyAction | undefined>)[code];
      if (action === undefined) {
        if (code.startsWith('Shift')) drive(atMs, true);
        return false;
      }
      if (action === 'set-speed-up') changeSetSpeed(1, atMs, fine);
      else if (action === 'set-speed-down') changeSetSpeed(-1, atMs, fine);
      else if (repeat) return true;
      else if (action === 'trigger') {
        latched = false;
        hand.place(atMs, { trigger: true }, 'keyboard');
      } else if (action === 'latch') {
        latched = !latched;
        hand.place(atMs, { trigger: latched }, 'keyboard');
      } else if (action === 'upright') hand.rollUpright(atMs, 'keyboard');
      else if (action === 'end') events.onEnd();
      else {
        held.add(action);
        drive(atMs, fine);
      }
      return true;
    },
    up(code, atMs, fine) {
      const action = (KEY_ACTIONS as Record<string, KeyAction | undefined>)[code];
      if (action === undefined) {
        if (code.startsWith('Shift')) drive(atMs, false);
        return false;
      }
      if (action === 'trigger' && !latched) hand.place(atMs, { trigger: false }, 'keyboard');
      if (held.delete(action)) drive(atMs, fine);
      return true;
    },
    release(atMs) {
      held.clear();
      latched = false;
      hand.rest(atMs);
    },
  };
}
