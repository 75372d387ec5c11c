import type { HandPose } from '../../sim-core/index.ts';
import type { HandController } from './hand-controller.ts';
import { type PenAttitude, penLean } from './pen-lean.ts';
import type { PlateFromScreen } from './pointer-hand.ts';

/** What a pen tells at one moment. */
export interface PenSample extends PenAttitude {
  atMs: number;
  clientX: number;
  clientY: number;
  shift: boolean;
  /** Bit field of PointerEvent.buttons: 1 the tip, 2 the barrel, 32 a second button or the other end. */
  buttons: number;
  /** 0 to 1; a pen that cannot tell says 0.5 with the tip down. */
  pressure: number;
  /** Turn about its own axis, deg, 0 to 359. */
  twist: number;
}

export interface PenSetup {
  penTrigger: 'tip' | 'barrel';
  penPressure: number;
  penTilt: 'true' | 'from-rest' | 'off';
  restTiltXDeg: number;
  restTiltYDeg: number;
  /** CSS px for a mm of the hand, where it was measured and is used; null: the torch stays under the pen. */
  pxPerMm: number | null;
  /** Two-handed: 'pen': the pen leans only. 'other': another device leans, the pen's tilt is nothing. */
  leans: 'both' | 'pen' | 'other';
}

const BARREL = 2;
const SECOND = 32;
/** Let go at this share of the pressure that pulled the trigger, so that it does not chatter. */
const LET_GO = 0.6;
/** Where the barrel is the trigger, the tip pressed down at least this hard sets the height; a pen that cannot tell says just this. */
const FIRM = 0.5;
const LEAN_DEG_PER_PIXEL = 0.2;
/** While height is set: up the screen raises, and turning the pen clockwise lowers, as a screw does. */
const HEIGHT_MM_PER_PIXEL = 0.03;
const HEIGHT_MM_PER_TWIST_DEG = 0.03;

export interface PenHand {
  move(sample: PenSample): void;
  /** The pen has gone out of reach: where it comes back is no movement of the torch. */
  away(atMs: number): void;
  /** The hand was rested: what is still pressed pulls the trigger only after it was seen up. */
  letGo(): void;
}

/**
 * A pen as the torch: it is where the pen is, leans as the pen leans, and its trigger is the tip pressed down or the barrel's button.
 * The other of these two sets the height, so that one button is enough. A pen that knows no tilt leans by moving with its second
 * button held, or Shift.
 */
export function createPenHand(hand: HandController, plateFromScreen: PlateFromScreen, setup: PenSetup): PenHand {
  const { penTrigger, pxPerMm, leans } = setup;
  const restX = setup.penTilt === 'from-rest' ? setup.restTiltXDeg : 0;
  const restY = setup.penTilt === 'from-rest' ? setup.restTiltYDeg : 0;
  let last: PenSample | null = null;
  let trigger = false;
  let stale = false;
  let firm = false;
  let tiltSeen = false;
  /** How far the torch is from the pen, left by a movement that set something else. */
  let offset = { xMm: 0, yMm: 0 };
  let anchored = true;

  function pulls({ buttons, pressure }: PenSample): boolean {
    if (penTrigger === 'barrel') return (buttons & BARREL) !== 0;
    return pressure >= setup.penPressure * (trigger ? LET_GO : 1);
  }

  function setsHeight({ buttons, pressure }: PenSample): boolean {
    if (penTrigger === 'tip') return (buttons & BARREL) !== 0;
    firm = pressure >= Math.max(FIRM, setup.penPressure) * (firm ? LET_GO : 1);
    return firm;
  }

  function leant(sample: PenSample): Partial<HandPose> {
    const lean = penLean(sample);
    if (lean.xDeg !== 0 || lean.yDeg !== 0) tiltSeen = true;
    if (setup.penTilt === 'off' || leans === 'other' || !tiltSeen) return {};
    return { leanXDeg: lean.xDeg - restX, leanYDeg: lean.yDeg - restY };
  }

  /** Where the torch goes; null where the view does not say. */
  function moved(sample: PenSample, pose: HandPose): Partial<HandPose> | null {
    if (pxPerMm !== null) {
      if (last === null) return {};
      return {
        xMm: pose.xMm + (sample.clientX - last.clientX) / pxPerMm,
        yMm: pose.yMm - (sample.clientY - last.clientY) / pxPerMm,
      };
    }
    const under = plateFromScreen(sample.clientX, sample.clientY, pose.heightMm);
    if (under === null) return null;
    if (!anchored) {
      anchored = true;
      offset = { xMm: pose.xMm - under.xMm, yMm: pose.yMm - under.yMm };
    }
    return { xMm: under.xMm + offset.xMm, yMm: under.yMm + offset.yMm };
  }

  return {
    move(sample) {
      const pose = hand.poseAt(sample.atMs);
      const dx = last === null ? 0 : sample.clientX - last.clientX;
      const dy = last === null ? 0 : sample.clientY - last.clientY;
      const change = leant(sample);
      const byMovement = {
        leanXDeg: pose.leanXDeg + dx * LEAN_DEG_PER_PIXEL,
        leanYDeg: pose.leanYDeg - dy * LEAN_DEG_PER_PIXEL,
      };
      if (setsHeight(sample)) {
        let turned = last === null ? 0 : sample.twist - last.twist;
        if (turned > 180) turned -= 360;
        if (turned < -180) turned += 360;
        change.heightMm = pose.heightMm - dy * HEIGHT_MM_PER_PIXEL - turned * HEIGHT_MM_PER_TWIST_DEG;
        anchored = false;
      } else if (leans === 'pen' || sample.shift || (sample.buttons & SECOND) !== 0) {
        // A pen that knows its tilt leans by it; one that does not leans by its movement.
        if (!tiltSeen || setup.penTilt === 'off') Object.assign(change, byMovement);
        anchored = false;
      } else Object.assign(change, moved(sample, pose) ?? {});
      const pressed = pulls(sample);
      if (!pressed) stale = false;
      const pulled = pressed && !stale;
      if (pulled !== trigger) {
        trigger = pulled;
        change.trigger = pulled;
      }
      last = sample;
      if (Object.keys(change).length > 0) hand.place(sample.atMs, change, 'pen');
    },
    away(atMs) {
      last = null;
      firm = false;
      // Without a measured hand the torch is under the pen again wherever it comes down.
      offset = { xMm: 0, yMm: 0 };
      anchored = true;
      if (!trigger) return;
      trigger = false;
      hand.place(atMs, { trigger: false }, 'pen');
    },
    letGo() {
      trigger = false;
      stale = true;
    },
  };
}
