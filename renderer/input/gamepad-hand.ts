import type { HandController } from './hand-controller.ts';
import { STILL } from './hand-event.ts';

/** The parts of a Gamepad that are read, in the W3C standard mapping. */
export interface PadState {
  axes: readonly number[];
  buttons: readonly { readonly pressed: boolean; readonly value: number }[];
}

const DEAD_ZONE = 0.16;
const FASTEST_MM_PER_S = 70;
const LEAN_DEG_PER_S = 36;
const RAISE_MM_PER_S = 8;
/** The right trigger is an arc trigger: on from half way, off again below a third, so that it does not chatter. */
const TRIGGER_ON = 0.5;
const TRIGGER_OFF = 0.33;

const BUTTON = { leftShoulder: 4, rightShoulder: 5, leftTrigger: 6, rightTrigger: 7, leftStick: 10, rightStick: 11 } as const;

/** Stick deflection without its dead zone, 0 to 1 in its own direction, squared so that slow movement is easy to hold. */
export function stick(x: number, y: number): { x: number; y: number } {
  const size = Math.min(1, Math.hypot(x, y));
  if (size <= DEAD_ZONE) return { x: 0, y: 0 };
  const live = (size - DEAD_ZONE) / (1 - DEAD_ZONE);
  const scale = (live * live) / size;
  return { x: x * scale, y: y * scale };
}

export interface GamepadHand {
  /** Reads the pad; sends something only when it differs from the last reading. */
  poll(pad: PadState | null, atMs: number): void;
}

/** Left stick moves, right stick leans, right trigger lights the arc, left trigger lowers, left shoulder raises, right stick pressed = roll upright. */
export function createGamepadHand(hand: HandController): GamepadHand {
  let trigger = false;
  let uprightHeld = false;
  let lastKey = '0,0,0,0,0';

  return {
    poll(pad, atMs) {
      if (pad === null) {
        if (trigger || lastKey !== '0,0,0,0,0') {
          trigger = false;
          lastKey = '0,0,0,0,0';
          hand.rest(atMs);
        }
        return;
      }
      const value = (index: number) => pad.buttons[index]?.value ?? 0;
      const move = stick(pad.axes[0] ?? 0, pad.axes[1] ?? 0);
      const lean = stick(pad.axes[2] ?? 0, pad.axes[3] ?? 0);
      const lower = Math.max(0, value(BUTTON.leftTrigger) - DEAD_ZONE) / (1 - DEAD_ZONE);
      const raise = pad.buttons[BUTTON.leftShoulder]?.pressed ? 1 : 0;
      // Pads count downward as positive; the plate's y runs away from the person. Rounding keeps stick noise out of the record.
      const rounded = [
        move.x * FASTEST_MM_PER_S,
        -move.y * FASTEST_MM_PER_S,
        (raise - lower) * RAISE_MM_PER_S,
        lean.x * LEAN_DEG_PER_S,
        -lean.y * LEAN_DEG_PER_S,
      ].map((rate) => Math.round(rate * 10) / 10 + 0);
      const key = rounded.join(',');
      if (key !== lastKey) {
        lastKey = key;
        const [x, y, height, leanX, leanY] = rounded as [number, number, number, number, number];
        const still = rounded.every((rate) => rate === 0);
        hand.drive(
          atMs,
          still ? null : { ...STILL, xMmPerS: x, yMmPerS: y, heightMmPerS: height, leanXDegPerS: leanX, leanYDegPerS: leanY },
          'gamepad',
        );
      }
      const pull = value(BUTTON.rightTrigger);
      const pulled = trigger ? pull > TRIGGER_OFF : pull > TRIGGER_ON;
      if (pulled !== trigger) {
        trigger = pulled;
        hand.place(atMs, { trigger }, 'gamepad');
      }
      const upright = pad.buttons[BUTTON.rightStick]?.pressed ?? false;
      if (upright && !uprightHeld) hand.rollUpright(atMs, 'gamepad');
      uprightHeld = upright;
    },
  };
}

/** The first connected pad in the standard mapping, or null. */
export function connectedPad(pads: readonly (Gamepad | null)[]): Gamepad | null {
  return pads.find((pad) => pad?.connected && pad.mapping === 'standard') ?? pads.find((pad) => pad?.connected) ?? null;
}
