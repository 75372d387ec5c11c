import { type EyeMove, isEyeMove } from './eye-place.ts';
import type { KeyAction } from './hand-actions.ts';
import type { HandController } from './hand-controller.ts';
import { STILL, sameRate } from './hand-event.ts';

export const SET_SPEED_LOW_MM_PER_S = 1;
export const SET_SPEED_HIGH_MM_PER_S = 80;
const RAISE_MM_PER_S = 6;
const LEAN_DEG_PER_S = 24;
/** Shift makes every movement this much finer. */
const FINE = 0.25;
/** The head goes so far at each press, and at each repeat of a key that is held, mm. */
const HEAD_MM = 10;

export interface KeyboardHand {
  /** True when the key was one of the bench's. */
  down(code: string, atMs: number, repeat: boolean, fine: boolean): boolean;
  up(code: string, atMs: number, fine: boolean): boolean;
  /** Focus lost: every key counts as let go. */
  release(atMs: number): void;
  readonly setSpeedMmPerS: number;
}

export interface KeyboardSetup {
  actions: ReadonlyMap<string, KeyAction>;
  /** Two-handed: the keys that would move lean. */
  leansOnly: boolean;
}

/** Turns keys into rates of the hand: arrows move at the set speed, exactly, whatever the key repeat or frame rate. */
export function createKeyboardHand(
  hand: HandController,
  startSpeedMmPerS: number,
  { actions, leansOnly }: KeyboardSetup,
  events: { onEnd(): void; onSetSpeed(mmPerS: number): void; onEye(move: EyeMove, byMm: number): void },
): KeyboardHand {
  // By code, not by action: of two keys for one thing the second may still be held when the first is let go.
  const held = new Map<string, KeyAction>();
  let setSpeed = startSpeedMmPerS;
  let latched = false;

  function axis(plus: KeyAction, minus: KeyAction): number {
    const actions = new Set(held.values());
    return (actions.has(plus) ? 1 : 0) - (actions.has(minus) ? 1 : 0);
  }

  function drive(atMs: number, fine: boolean): void {
    const scale = fine ? FINE : 1;
    const x = axis('move-right', 'move-left');
    const y = axis('move-away', 'move-near');
    const height = axis('raise', 'lower');
    const leanX = axis('lean-right', 'lean-left') || (leansOnly ? x : 0);
    const leanY = axis('lean-away', 'lean-near') || (leansOnly ? y : 0);
    // Two arrows together keep the set speed along the diagonal.
    const along = leansOnly ? 0 : (setSpeed * scale) / Math.max(1, Math.hypot(x, y));
    const rate = {
      ...STILL,
      xMmPerS: x * along + 0,
      yMmPerS: y * along + 0,
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
      const action = actions.get(code);
      if (action === undefined) {
        if (code.startsWith('Shift')) drive(atMs, true);
        return false;
      }
      if (action === 'set-speed-up') changeSetSpeed(1, atMs, fine);
      else if (action === 'set-speed-down') changeSetSpeed(-1, atMs, fine);
      else if (isEyeMove(action)) {
        if (!repeat || action !== 'view') events.onEye(action, HEAD_MM);
      } else if (repeat) return true;
      else if (action === 'trigger') {
        latched = false;
        hand.place(atMs, { trigger: true }, 'keyboard');
      } else if (action === 'latch') {
        latched = !latched;
        hand.place(atMs, { trigger: latched }, 'keyboard');
      } else if (action === 'upright') hand.rollUpright(atMs, 'keyboard');
      else if (action === 'end') events.onEnd();
      else {
        held.set(code, action);
        drive(atMs, fine);
      }
      return true;
    },
    up(code, atMs, fine) {
      const action = actions.get(code);
      if (action === undefined) {
        if (code.startsWith('Shift')) drive(atMs, false);
        return false;
      }
      if (action === 'trigger' && !latched) hand.place(atMs, { trigger: false }, 'keyboard');
      if (held.delete(code)) drive(atMs, fine);
      return true;
    },
    release(atMs) {
      held.clear();
      latched = false;
      hand.rest(atMs);
    },
  };
}
