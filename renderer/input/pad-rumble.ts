import type { HandSettings } from '../../electron/contract.ts';

/** What a pad can let the hands feel. */
export type Rumble = 'break-through' | 'hard-stop';

/** What the bench shows of a tick, as far as hands would feel it. */
export interface RumbleView {
  trigger: boolean;
  /** The arc burns on the metal. */
  onMetal: boolean;
  underMm3PerS: number;
  standOffMm: number;
}

/** Less than this below the plate is smoke, not a hole. */
const THROUGH_MM3_PER_S = 1;
const TOUCHING_MM = 0.05;
const CLEAR_MM = 0.3;
/** One jolt an event, however the arc flickers, ms. */
const APART_MS = 400;

/** Says when something is to be felt: the arc breaking through, the arc lost under a pulled trigger, the tip set down on the plate. */
export function createRumbleWatch(): (view: RumbleView, nowMs: number) => Rumble | null {
  let through = false;
  let burning = false;
  let clear = false;
  let lastMs = Number.NEGATIVE_INFINITY;
  return (view, nowMs) => {
    const nowThrough = view.onMetal && view.underMm3PerS > THROUGH_MM3_PER_S;
    const brokeThrough = nowThrough && !through;
    // A moving cut is through all along; only a new arc can break through again.
    through = nowThrough || (through && view.onMetal);
    const lost = burning && !view.onMetal && view.trigger;
    burning = view.onMetal;
    const touched = clear && view.standOffMm <= TOUCHING_MM;
    if (view.standOffMm >= CLEAR_MM) clear = true;
    else if (touched) clear = false;
    const felt = brokeThrough ? 'break-through' : lost || touched ? 'hard-stop' : null;
    if (felt === null || nowMs - lastMs < APART_MS) return null;
    lastMs = nowMs;
    return felt;
  };
}

/** Durations ms, strengths 0 to 1: breaking through is a long soft purr, a hard stop one short blow. */
const EFFECTS: Record<Rumble, GamepadEffectParameters> = {
  'break-through': { duration: 260, weakMagnitude: 0.7, strongMagnitude: 0.15 },
  'hard-stop': { duration: 120, weakMagnitude: 0.2, strongMagnitude: 0.9 },
};

/** Lets a pad be felt where it can be. One that refuses has nothing to say that matters. */
export function rumblePad(pad: Gamepad | null, felt: Rumble, { padRumble }: Pick<HandSettings, 'padRumble'>): void {
  if (!padRumble) return;
  void pad?.vibrationActuator?.playEffect('dual-rumble', EFFECTS[felt]).catch(() => undefined);
}
