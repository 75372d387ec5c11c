import { type EyeMove, HEAD_MOVES } from './eye-place.ts';
import { buttonOf, PAD_ACTIONS, type PadAction } from './hand-actions.ts';
import type { HandController } from './hand-controller.ts';
import { STILL } from './hand-event.ts';

/** The parts of a Gamepad that are read, in the W3C standard mapping. */
export interface PadState {
  axes: readonly number[];
  buttons: readonly { readonly pressed: boolean; readonly value: number }[];
}

const FASTEST_MM_PER_S = 70;
const LEAN_DEG_PER_S = 36;
const RAISE_MM_PER_S = 8;
/** With the button for it held, every movement is this much finer. */
const FINE = 0.25;
/** The trigger is an arc trigger: on from half way, off again below a third, so that it does not chatter. */
const TRIGGER_ON = 0.5;
const TRIGGER_OFF = 0.33;
/** The head goes so far at each reading of a button that is held, mm. */
const HEAD_MM = 1;
const UP = { pressed: false, value: 0 };

/** Stick deflection without its dead zone, 0 to 1 in its own direction, squared so that slow movement is easy to hold. */
export function stick(x: number, y: number, deadZone: number): { x: number; y: number } {
  const size = Math.min(1, Math.hypot(x, y));
  if (size <= deadZone) return { x: 0, y: 0 };
  const live = (size - deadZone) / (1 - deadZone);
  const scale = (live * live) / size;
  return { x: x * scale, y: y * scale };
}

export interface GamepadSetup {
  padButtons: Record<string, number>;
  padDeadZone: number;
  padMoves: 'left' | 'right';
  /** Two-handed: both sticks lean. */
  leansOnly: boolean;
}

export interface GamepadHand {
  /** Reads the pad; sends something only when it differs from the last reading. */
  poll(pad: PadState | null, atMs: number): void;
  /** The hand was rested: a stick that is still tilted counts anew at the next reading, a button only once it was seen up. */
  letGo(): void;
}

/** One stick moves, the other leans; the triggers tell how far they are pulled, and height goes as fast as that says. */
export function createGamepadHand(
  hand: HandController,
  setup: GamepadSetup,
  { onEnd, onEye }: { onEnd(): void; onEye(move: EyeMove, byMm: number): void },
): GamepadHand {
  const { padDeadZone, padMoves, leansOnly } = setup;
  const buttons = Object.fromEntries(
    PAD_ACTIONS.map((action) => [action, buttonOf(action, { keys: {}, padButtons: setup.padButtons })]),
  ) as Record<PadAction, number>;
  let trigger = false;
  let latched = false;
  const held = new Set<PadAction>();
  let lastKey = '0,0,0,0,0';
  /** Buttons that have not been seen up since everything was let go. */
  let stale = new Set<number>();
  let allStale = false;

  /** The pad without what is still pressed from before. */
  function sinceLetGo(pad: PadState): PadState {
    if (allStale) stale = new Set(pad.buttons.keys());
    allStale = false;
    if (stale.size === 0) return pad;
    for (const n of stale) if ((pad.buttons[n]?.value ?? 0) < TRIGGER_OFF) stale.delete(n);
    return { axes: pad.axes, buttons: pad.buttons.map((button, n) => (stale.has(n) ? UP : button)) };
  }

  /** How far a button is pulled beyond its dead zone; one that only knows on and off is pulled fully. */
  function pulled(pad: PadState, action: PadAction): number {
    return Math.max(0, (pad.buttons[buttons[action]]?.value ?? 0) - padDeadZone) / (1 - padDeadZone);
  }

  /** True once, when a button goes down. */
  function pressed(pad: PadState, action: PadAction): boolean {
    const down = pad.buttons[buttons[action]]?.pressed ?? false;
    const news = down && !held.has(action);
    if (down) held.add(action);
    else held.delete(action);
    return news;
  }

  return {
    letGo() {
      trigger = false;
      latched = false;
      allStale = true;
      lastKey = '';
    },
    poll(found, atMs) {
      if (found === null) {
        if (trigger || lastKey !== '0,0,0,0,0') {
          trigger = false;
          latched = false;
          lastKey = '0,0,0,0,0';
          hand.rest(atMs);
        }
        return;
      }
      const pad = sinceLetGo(found);
      const left = stick(pad.axes[0] ?? 0, pad.axes[1] ?? 0, padDeadZone);
      const right = stick(pad.axes[2] ?? 0, pad.axes[3] ?? 0, padDeadZone);
      const [first, second] = padMoves === 'left' ? [left, right] : [right, left];
      const move = leansOnly ? { x: 0, y: 0 } : first;
      const lean = leansOnly ? { x: first.x + second.x, y: first.y + second.y } : second;
      const fine = pad.buttons[buttons.fine]?.pressed ? FINE : 1;
      // Pads count downward as positive; the plate's y runs away from the person. Rounding keeps stick noise out of the record.
      const rounded = [
        move.x * FASTEST_MM_PER_S * fine,
        -move.y * FASTEST_MM_PER_S * fine,
        (pulled(pad, 'raise') - pulled(pad, 'lower')) * RAISE_MM_PER_S * fine,
        lean.x * LEAN_DEG_PER_S * fine,
        -lean.y * LEAN_DEG_PER_S * fine,
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
      const pull = pad.buttons[buttons.trigger]?.value ?? 0;
      const fired = latched ? pull > TRIGGER_ON : trigger ? pull > TRIGGER_OFF : pull > TRIGGER_ON;
      if (pressed(pad, 'latch')) {
        latched = !latched;
        trigger = latched;
        hand.place(atMs, { trigger }, 'gamepad');
      } else if (latched && fired) {
        // Pulled by hand again: from here on letting go lets go.
        latched = false;
      } else if (!latched && fired !== trigger) {
        trigger = fired;
        hand.place(atMs, { trigger }, 'gamepad');
      }
      if (pressed(pad, 'upright')) hand.rollUpright(atMs, 'gamepad');
      if (pressed(pad, 'view')) onEye('view', 0);
      for (const move of HEAD_MOVES) if (pad.buttons[buttons[move]]?.pressed) onEye(move, HEAD_MM);
      if (pressed(pad, 'end')) onEnd();
    },
  };
}

/** The first connected pad in the standard mapping, or null. */
export function connectedPad(pads: readonly (Gamepad | null)[]): Gamepad | null {
  return pads.find((pad) => pad?.connected && pad.mapping === 'standard') ?? pads.find((pad) => pad?.connected) ?? null;
}
