import type { HandController } from './hand-controller.ts';

/** Place on the plate under a point of the screen, at the height of the tip; null where the view does not meet the plate's plane. */
export type PlateFromScreen = (clientX: number, clientY: number, heightMm: number) => { xMm: number; yMm: number } | null;

const LEAN_DEG_PER_PIXEL = 0.2;
/** Where the hand was measured it leans by so much for each mm, whatever the device tells for a mm. */
const LEAN_DEG_PER_MM = 1;
const WHEEL_MM_PER_UNIT = 0.004;
const FINE = 0.2;
/** After leaning, the torch is not under the pointer any more. The difference melts by this share a move while the arc is off. */
const OFFSET_KEPT = 0.9;

export interface PointerSample {
  atMs: number;
  clientX: number;
  clientY: number;
  movementX: number;
  movementY: number;
  shift: boolean;
  /** Bit field of PointerEvent.buttons. */
  buttons: number;
  /** Pointer lock: only the movement counts. */
  locked: boolean;
}

export interface PointerSetup {
  /** CSS px of movement for a mm of the hand, where it was measured and is used; null: the torch stays under the pointer. */
  pxPerMm: number | null;
  /** Two-handed: all movement leans. */
  leansOnly: boolean;
}

export interface PointerHand {
  move(sample: PointerSample): void;
  trigger(atMs: number, pressed: boolean): void;
  wheel(atMs: number, delta: number, fine: boolean): void;
}

const RIGHT_BUTTON = 2;

/**
 * The mouse. Not measured, the torch follows the pointer over the plate. Measured, it goes as far as the hand does, and only while
 * the pointer is held: outside of that the system's acceleration and the edge of the screen would spoil the scale. Shift or the
 * right button turns movement into lean.
 */
export function createPointerHand(hand: HandController, plateFromScreen: PlateFromScreen, setup: PointerSetup): PointerHand {
  const { pxPerMm, leansOnly } = setup;
  const leanDegPerPixel = pxPerMm === null ? LEAN_DEG_PER_PIXEL : LEAN_DEG_PER_MM / pxPerMm;
  let offsetX = 0;
  let offsetY = 0;
  let leaning = false;

  return {
    move(sample) {
      const { atMs } = sample;
      const pose = hand.poseAt(atMs);
      if (leansOnly || sample.shift || (sample.buttons & RIGHT_BUTTON) !== 0) {
        if (sample.movementX === 0 && sample.movementY === 0) return;
        leaning = true;
        const change = {
          leanXDeg: pose.leanXDeg + sample.movementX * leanDegPerPixel,
          leanYDeg: pose.leanYDeg - sample.movementY * leanDegPerPixel,
        };
        hand.place(atMs, change, 'mouse');
        return;
      }
      if (pxPerMm !== null) {
        if (!sample.locked) return;
        const change = { xMm: pose.xMm + sample.movementX / pxPerMm, yMm: pose.yMm - sample.movementY / pxPerMm };
        hand.place(atMs, change, 'mouse');
        return;
      }
      const under = plateFromScreen(sample.clientX, sample.clientY, pose.heightMm);
      if (under === null) return;
      if (sample.locked) {
        const before = plateFromScreen(sample.clientX - sample.movementX, sample.clientY - sample.movementY, pose.heightMm);
        if (before === null) return;
        hand.place(atMs, { xMm: pose.xMm + under.xMm - before.xMm, yMm: pose.yMm + under.yMm - before.yMm }, 'mouse');
        leaning = true;
        return;
      }
      if (leaning) {
        leaning = false;
        offsetX = pose.xMm - under.xMm;
        offsetY = pose.yMm - under.yMm;
      } else if (!pose.trigger) {
        offsetX *= OFFSET_KEPT;
        offsetY *= OFFSET_KEPT;
      }
      hand.place(atMs, { xMm: under.xMm + offsetX, yMm: under.yMm + offsetY }, 'mouse');
    },
    trigger(atMs, pressed) {
      hand.place(atMs, { trigger: pressed }, 'mouse');
    },
    wheel(atMs, delta, fine) {
      const pose = hand.poseAt(atMs);
      hand.place(atMs, { heightMm: pose.heightMm - delta * WHEEL_MM_PER_UNIT * (fine ? FINE : 1) }, 'mouse');
    },
  };
}
