import type { EyeMove } from './eye-place.ts';
import { connectedPad, createGamepadHand } from './gamepad-hand.ts';
import { actionsByKey } from './hand-actions.ts';
import type { HandController } from './hand-controller.ts';
import { type HandSetup, takesTorch } from './hand-setup.ts';
import { createKeyboardHand } from './keyboard-hand.ts';
import { lockPointer } from './lock-pointer.ts';
import { createPenHand, type PenSample } from './pen-hand.ts';
import { createPointerHand, type PlateFromScreen, type PointerSample } from './pointer-hand.ts';

const LINE_PX = 33;
const PAGE_PX = 400;
const PAD_POLL_MS = 8;
/** While no pad is there it is looked for this often. */
const PAD_LOOK_MS = 400;
const MAIN_BUTTON = 0;
const MIDDLE_BUTTON = 1;
const RIGHT_BUTTON = 2;
/** Where buttons of the pad answer questions, and move no torch. */
const DIALOG = '[role="dialog"]';
/** A press of the right button that moved no more than this was a click, and leant nothing, px. */
const CLICK_PX = 3;

export interface HandEvents {
  onEnd(): void;
  onSetSpeed(mmPerS: number): void;
  onPad(connected: boolean): void;
  /** The head is to move, not the torch. */
  onEye(move: EyeMove, byMm: number): void;
  /** The browser does not hold the pointer, and a measured mouse needs that. */
  onLockRefused(): void;
}

function mouseSample(event: PointerEvent, stage: HTMLElement): PointerSample {
  return {
    atMs: event.timeStamp,
    clientX: event.clientX,
    clientY: event.clientY,
    movementX: event.movementX,
    movementY: event.movementY,
    shift: event.shiftKey,
    buttons: event.buttons,
    locked: document.pointerLockElement === stage,
  };
}

function penSample(event: PointerEvent): PenSample {
  const { timeStamp, clientX, clientY, shiftKey, buttons, pressure, twist, tiltX, tiltY, altitudeAngle, azimuthAngle } = event;
  const where = { atMs: timeStamp, clientX, clientY, shift: shiftKey, buttons, pressure, twist };
  return { ...where, tiltX, tiltY, altitudeAngle, azimuthAngle };
}

export interface AttachedHand {
  /**
   * Trigger up, all movement stopped, and every device as if nothing were pressed: what still is counts only when it is pressed anew.
   * Page clock, ms.
   */
  letGoAll(atMs: number): void;
  /** Listens no more. */
  detach(): void;
}

/**
 * Listens on the stage for every device. Raw pointer updates are taken where the browser has them:
 * they come when they happen, not once a frame, each part of them with the moment the device gave it.
 */
export function attachHand(
  stage: HTMLElement,
  hand: HandController,
  plateFromScreen: PlateFromScreen,
  startSpeedMmPerS: number,
  setup: HandSetup,
  events: HandEvents,
): AttachedHand {
  const { settings } = setup;
  const { leansWith, oneToOne } = settings;
  const held = takesTorch(setup);
  const mouse = createPointerHand(hand, plateFromScreen, {
    pxPerMm: oneToOne ? (setup.mouse?.pxPerMm ?? null) : null,
    leansOnly: leansWith === 'mouse',
  });
  const pen = createPenHand(hand, plateFromScreen, {
    ...settings,
    restTiltXDeg: setup.pen?.restTiltXDeg ?? 0,
    restTiltYDeg: setup.pen?.restTiltYDeg ?? 0,
    pxPerMm: oneToOne ? (setup.pen?.pxPerMm ?? null) : null,
    leans: leansWith === 'none' ? 'both' : leansWith === 'pen' ? 'pen' : 'other',
  });
  const keyboard = createKeyboardHand(
    hand,
    startSpeedMmPerS,
    { actions: actionsByKey(settings), leansOnly: leansWith === 'keyboard' },
    events,
  );
  const pad = createGamepadHand(hand, { ...settings, leansOnly: leansWith === 'gamepad' }, events);
  const abort = new AbortController();
  const { signal } = abort;
  const locked = () => document.pointerLockElement === stage;
  let padSeen = false;
  let pulled = false;
  /** Mouse events follow the pointer events of the device that made them; those of a pen are the pen's business. */
  let byPen = false;
  /** How far the mouse has gone since the right button went down; it lets the pointer go by a click. */
  let leantPx = 0;
  const pull = (atMs: number, on: boolean) => {
    if (on === pulled) return;
    pulled = on;
    mouse.trigger(atMs, on);
  };
  const letGoAll = (atMs: number) => {
    pulled = false;
    pen.letGo();
    pad.letGo();
    keyboard.release(atMs);
  };

  const told = (event: PointerEvent) => {
    byPen = event.pointerType === 'pen';
    const parts = event.getCoalescedEvents();
    for (const part of parts.length > 0 ? parts : [event]) {
      if (byPen) pen.move(penSample(part));
      else {
        mouse.move(mouseSample(part, stage));
        leantPx += Math.abs(part.movementX) + Math.abs(part.movementY);
      }
    }
  };
  const moveType = 'onpointerrawupdate' in stage ? 'pointerrawupdate' : 'pointermove';
  stage.addEventListener(moveType as 'pointermove', told, { signal });
  stage.addEventListener(
    'pointerdown',
    (event) => {
      byPen = event.pointerType === 'pen';
      stage.focus({ preventScroll: true });
      if (byPen) {
        stage.setPointerCapture(event.pointerId);
        pen.move(penSample(event));
        return;
      }
      if (held && !locked()) return;
      if (!locked()) stage.setPointerCapture(event.pointerId);
      if (event.button === MAIN_BUTTON) pull(event.timeStamp, true);
    },
    { signal },
  );
  // A button pressed or let go while another is held is told by the mouse events alone.
  stage.addEventListener(
    'mousedown',
    (event) => {
      if (byPen) return;
      if (held && !locked()) {
        // This press takes the torch; the next one pulls its trigger.
        void lockPointer(stage).then((how) => how === null && events.onLockRefused());
        return;
      }
      if (event.button === MAIN_BUTTON) pull(event.timeStamp, true);
      if (event.button === RIGHT_BUTTON) leantPx = 0;
      if (event.button !== MIDDLE_BUTTON) return;
      event.preventDefault();
      hand.rollUpright(event.timeStamp, 'mouse');
    },
    { signal },
  );
  const letGo = (event: MouseEvent) => {
    if (byPen) return;
    if (event.button === MAIN_BUTTON || event.type === 'pointercancel') pull(event.timeStamp, false);
    // The way out for somebody who has no hand at the keys.
    const clicked = event.type === 'mouseup' && event.button === RIGHT_BUTTON && leantPx <= CLICK_PX;
    if (clicked && locked() && !pulled) document.exitPointerLock();
  };
  stage.addEventListener('mouseup', letGo, { signal });
  const pointerUp = (event: PointerEvent) => {
    byPen = event.pointerType === 'pen';
    if (byPen) pen.move({ ...penSample(event), pressure: 0, buttons: event.buttons & ~1 });
    else letGo(event);
  };
  stage.addEventListener('pointerup', pointerUp, { signal });
  for (const gone of ['pointercancel', 'pointerleave'] as const) {
    stage.addEventListener(
      gone,
      (event) => {
        if (event.pointerType === 'pen') pen.away(event.timeStamp);
        else if (gone === 'pointercancel') letGo(event);
      },
      { signal },
    );
  }
  document.addEventListener(
    'pointerlockchange',
    (event) => {
      // Esc puts the torch down: nothing may go on burning by itself.
      if (held && !locked()) letGoAll(event.timeStamp);
    },
    { signal },
  );
  stage.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  stage.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const scale = event.deltaMode === 1 ? LINE_PX : event.deltaMode === 2 ? PAGE_PX : 1;
      // With Shift some systems turn the wheel sideways.
      mouse.wheel(event.timeStamp, (event.deltaY || event.deltaX) * scale, event.shiftKey);
    },
    { signal, passive: false },
  );
  stage.addEventListener(
    'keydown',
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (keyboard.down(event.code, event.timeStamp, event.repeat, event.shiftKey)) event.preventDefault();
    },
    { signal },
  );
  stage.addEventListener(
    'keyup',
    (event) => {
      if (keyboard.up(event.code, event.timeStamp, event.shiftKey)) event.preventDefault();
    },
    { signal },
  );
  stage.addEventListener('blur', (event) => letGoAll(event.timeStamp), { signal });

  let away = false;
  let lookAtMs = performance.now();
  window.addEventListener(
    'gamepadconnected',
    () => {
      lookAtMs = 0;
    },
    { signal },
  );
  const timer = setInterval(() => {
    // To ask is slow where no pad is plugged in, and takes the time from the picture.
    if (!padSeen && performance.now() < lookAtMs) return;
    lookAtMs = performance.now() + PAD_LOOK_MS;
    const elsewhere = document.visibilityState === 'hidden' || (document.activeElement?.closest(DIALOG) ?? null) !== null;
    if (elsewhere && !away) letGoAll(performance.now());
    away = elsewhere;
    if (away) return;
    const found = connectedPad(navigator.getGamepads());
    if (found !== null || padSeen) pad.poll(found, performance.now());
    if ((found !== null) !== padSeen) {
      padSeen = found !== null;
      events.onPad(padSeen);
    }
  }, PAD_POLL_MS);

  return {
    letGoAll,
    detach() {
      abort.abort();
      clearInterval(timer);
      if (locked()) document.exitPointerLock();
    },
  };
}
