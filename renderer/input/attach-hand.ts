import { connectedPad, createGamepadHand } from './gamepad-hand.ts';
import type { HandController } from './hand-controller.ts';
import type { KeyboardHand } from './keyboard-hand.ts';
import type { PointerHand, PointerSample } from './pointer-hand.ts';

const LINE_PX = 33;
const PAGE_PX = 400;
const PAD_POLL_MS = 8;
const MAIN_BUTTON = 0;
const MIDDLE_BUTTON = 1;

function sampleOf(event: PointerEvent, stage: HTMLElement): PointerSample {
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

/**
 * Listens on the stage for every device; returns the way to stop. Raw pointer updates are taken where the browser has them:
 * they come when they happen, not once a frame.
 */
export function attachHand(
  stage: HTMLElement,
  hand: HandController,
  pointer: PointerHand,
  keyboard: KeyboardHand,
  onPad: (connected: boolean) => void,
): () => void {
  const abort = new AbortController();
  const { signal } = abort;
  const pad = createGamepadHand(hand);
  let padSeen = false;
  let pulled = false;
  const pull = (atMs: number, on: boolean) => {
    if (on === pulled) return;
    pulled = on;
    pointer.trigger(atMs, on);
  };

  const moveType = 'onpointerrawupdate' in stage ? 'pointerrawupdate' : 'pointermove';
  stage.addEventListener(
    moveType as 'pointermove',
    (event) => {
      const parts = event.getCoalescedEvents();
      for (const part of parts.length > 0 ? parts : [event]) pointer.move(sampleOf(part, stage));
    },
    { signal },
  );
  stage.addEventListener(
    'pointerdown',
    (event) => {
      stage.focus({ preventScroll: true });
      stage.setPointerCapture(event.pointerId);
      if (event.button === MAIN_BUTTON) pull(event.timeStamp, true);
    },
    { signal },
  );
  // A button pressed or let go while another is held is told by the mouse events alone.
  stage.addEventListener(
    'mousedown',
    (event) => {
      if (event.button === MAIN_BUTTON) pull(event.timeStamp, true);
      if (event.button !== MIDDLE_BUTTON) return;
      event.preventDefault();
      hand.rollUpright(event.timeStamp, 'mouse');
    },
    { signal },
  );
  const letGo = (event: MouseEvent) => {
    if (event.button === MAIN_BUTTON || event.type === 'pointercancel') pull(event.timeStamp, false);
  };
  stage.addEventListener('mouseup', letGo, { signal });
  stage.addEventListener('pointerup', letGo, { signal });
  stage.addEventListener('pointercancel', letGo, { signal });
  stage.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  stage.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const scale = event.deltaMode === 1 ? LINE_PX : event.deltaMode === 2 ? PAGE_PX : 1;
      // With Shift some systems turn the wheel sideways.
      pointer.wheel(event.timeStamp, (event.deltaY || event.deltaX) * scale, event.shiftKey);
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
  stage.addEventListener('blur', (event) => keyboard.release(event.timeStamp), { signal });

  const timer = setInterval(() => {
    const found = connectedPad(navigator.getGamepads());
    if (found !== null || padSeen) pad.poll(found, performance.now());
    if ((found !== null) !== padSeen) {
      padSeen = found !== null;
      onPad(padSeen);
    }
  }, PAD_POLL_MS);

  return () => {
    abort.abort();
    clearInterval(timer);
  };
}
