import { vi } from 'vitest';
import type { HandSettings, KeptHandScale } from '../../electron/contract.ts';
import { attachHand } from '../../renderer/input/attach-hand.ts';
import { FIRST_HAND_SETTINGS } from '../../renderer/input/first-hand-settings.ts';
import type { PadState } from '../../renderer/input/gamepad-hand.ts';
import { createHandController, type HandController } from '../../renderer/input/hand-controller.ts';
import type { HandEvent } from '../../renderer/input/hand-event.ts';
import type { HandLimits } from '../../renderer/input/hand-pose.ts';
import type { HandPose } from '../../sim-core/index.ts';

const PX_PER_MM = 4;
const FIRST_SPEED_MM_PER_S = 10;
const MEASURED: Omit<KeptHandScale, 'device'> = {
  personId: null,
  place: 'here',
  measuredAt: '2026-01-05T08:00:00.000Z',
  pxPerMm: 8,
  screenPxPerMm: 4,
  spread: 0.01,
  acceleration: 0,
  raw: true,
  restTiltXDeg: 0,
  restTiltYDeg: 0,
};

/** Of what a device may tell beside movement, nothing is looked at. */
export const NO_EVENTS = { onEnd: () => undefined, onSetSpeed: () => undefined, onEye: () => undefined };

/** The stage of a bench with the page's real listeners on it, and a clock that only the test moves. */
export interface BenchStandIn {
  readonly hand: HandController;
  readonly sent: HandEvent[];
  readonly ended: number;
  /** How the devices were set. */
  readonly settings: HandSettings;
  /** The pad as it is held; null = none is there. */
  pad: PadState | null;
  nowMs(): number;
  pose(): HandPose;
  wait(ms: number): void;
  /** Tells the stage of an event as a browser would; `parts`: what it says came together in it. */
  tell(type: string, fields: Record<string, unknown>, parts?: Record<string, unknown>[]): void;
  held(): boolean;
  /** Everything is let go, as where the bench is halted. */
  letGoAll(): void;
  /** The focus goes into a dialog, or back to the stage. */
  dialog(open: boolean): void;
  close(): void;
}

function eventOf(type: string, atMs: number, fields: Record<string, unknown>): Event {
  const event = new Event(type, { cancelable: true });
  Object.defineProperty(event, 'timeStamp', { value: atMs });
  return Object.assign(event, fields);
}

/** `measured`: the device whose hand was measured, and is used. Ends with `close`, which gives the real clock back. */
export function standInBench(
  start: HandPose,
  limits: HandLimits,
  changed: Partial<HandSettings> = {},
  measured: KeptHandScale['device'] | null = null,
): BenchStandIn {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance'] });
  const page = Object.assign(new EventTarget(), {
    pointerLockElement: null as EventTarget | null,
    activeElement: null as { closest(selector: string): EventTarget | null } | null,
    exitPointerLock() {
      page.pointerLockElement = null;
      page.dispatchEvent(eventOf('pointerlockchange', performance.now(), {}));
    },
  });
  const stage = Object.assign(new EventTarget(), {
    onpointerrawupdate: null,
    focus: () => undefined,
    setPointerCapture: () => undefined,
    requestPointerLock() {
      page.pointerLockElement = stage;
      page.dispatchEvent(eventOf('pointerlockchange', performance.now(), {}));
      return Promise.resolve();
    },
  });
  const window = new EventTarget();
  vi.stubGlobal('document', page);
  vi.stubGlobal('window', window);
  vi.stubGlobal('navigator', {
    getGamepads: () => (plugged === null ? [] : [{ connected: true, mapping: 'standard', ...plugged }]),
  });
  let plugged: PadState | null = null;
  const settings = { ...FIRST_HAND_SETTINGS, ...changed };
  const sent: HandEvent[] = [];
  const hand = createHandController(start, performance.now(), limits, (event) => sent.push(event));
  let ended = 0;
  const scale = (device: KeptHandScale['device']) => (measured === device ? { ...MEASURED, device } : null);
  const attached = attachHand(
    stage as unknown as HTMLElement,
    hand,
    // Straight from above.
    (x, y) => ({ xMm: x / PX_PER_MM, yMm: -y / PX_PER_MM }),
    FIRST_SPEED_MM_PER_S,
    { settings, mouse: scale('mouse'), pen: scale('pen') },
    {
      onEnd: () => {
        ended += 1;
      },
      onSetSpeed: () => undefined,
      onPad: () => undefined,
      onEye: () => undefined,
      onLockRefused: () => undefined,
    },
  );
  const bench: BenchStandIn = {
    hand,
    sent,
    settings,
    get pad() {
      return plugged;
    },
    set pad(pad) {
      const isNew = plugged === null && pad !== null;
      plugged = pad;
      if (isNew) window.dispatchEvent(new Event('gamepadconnected'));
    },
    get ended() {
      return ended;
    },
    nowMs: () => performance.now(),
    pose: () => hand.poseAt(performance.now()),
    wait: (ms) => void vi.advanceTimersByTime(ms),
    tell(type, fields, parts = []) {
      const atMs = performance.now();
      const getCoalescedEvents = () => parts.map((part) => eventOf(type, (part.timeStamp as number) ?? atMs, withoutStamp(part)));
      stage.dispatchEvent(eventOf(type, atMs, { shiftKey: false, ...withoutStamp(fields), getCoalescedEvents }));
    },
    held: () => page.pointerLockElement === stage,
    letGoAll: () => attached.letGoAll(performance.now()),
    dialog(open) {
      page.activeElement = { closest: (selector) => (open && selector === '[role="dialog"]' ? stage : null) };
    },
    close() {
      attached.detach();
      vi.unstubAllGlobals();
      vi.useRealTimers();
    },
  };
  return bench;
}

function withoutStamp({ timeStamp: _, ...rest }: Record<string, unknown>): Record<string, unknown> {
  return rest;
}
