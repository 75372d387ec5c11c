import type { HandSettings } from '../../electron/contract.ts';

/** What a key can do while the bench has the focus, in the order in which it is shown, with the keys that do it to begin with. */
export const KEY_DEFAULTS = {
  'move-left': ['ArrowLeft'],
  'move-right': ['ArrowRight'],
  'move-away': ['ArrowUp'],
  'move-near': ['ArrowDown'],
  raise: ['KeyR', 'PageUp'],
  lower: ['KeyF', 'PageDown'],
  'lean-left': ['KeyA'],
  'lean-right': ['KeyD'],
  'lean-away': ['KeyW'],
  'lean-near': ['KeyS'],
  upright: ['KeyU'],
  trigger: ['Space'],
  latch: ['KeyL'],
  'set-speed-up': ['Period'],
  'set-speed-down': ['Comma'],
  view: ['KeyV'],
  'head-left': ['KeyJ'],
  'head-right': ['KeyK'],
  'head-up': ['KeyI'],
  'head-down': ['KeyN'],
  end: ['KeyE'],
} as const satisfies Record<string, readonly string[]>;
export type KeyAction = keyof typeof KEY_DEFAULTS;
export const KEY_ACTIONS = Object.keys(KEY_DEFAULTS) as KeyAction[];

/** What a button of a pad can do, by its number in the W3C standard mapping. Triggers that tell how far they are pulled are used so. */
export const PAD_DEFAULTS = {
  trigger: 7,
  lower: 6,
  raise: 4,
  upright: 11,
  fine: 5,
  latch: 3,
  view: 2,
  'head-up': 12,
  'head-down': 13,
  'head-left': 14,
  'head-right': 15,
  end: 9,
} as const satisfies Record<string, number>;
export type PadAction = keyof typeof PAD_DEFAULTS;
export const PAD_ACTIONS = Object.keys(PAD_DEFAULTS) as PadAction[];

/** Keys that have a meaning of their own on every page (M silences the bench), or only go with others. */
const NOT_TO_BE_USED = /^(Tab|Escape|Enter|KeyM|F\d+|Shift.*|Control.*|Alt.*|Meta.*|CapsLock|ContextMenu)$/;

export function mayBeBound(code: string): boolean {
  return code !== '' && !NOT_TO_BE_USED.test(code);
}

type Bindings = Pick<HandSettings, 'keys' | 'padButtons'>;

/** The keys of an action as they are now. */
export function keysOf(action: KeyAction, { keys }: Bindings): readonly string[] {
  return keys[action] ?? KEY_DEFAULTS[action];
}

export function buttonOf(action: PadAction, { padButtons }: Bindings): number {
  return padButtons[action] ?? PAD_DEFAULTS[action];
}

/** What each key does now. */
export function actionsByKey(bindings: Bindings): ReadonlyMap<string, KeyAction> {
  return new Map(KEY_ACTIONS.flatMap((action) => keysOf(action, bindings).map((code) => [code, action] as const)));
}

/** What has a key already, other than the action it is wanted for; null where it is free. */
export function keyTakenBy(code: string, wantedFor: KeyAction, bindings: Bindings): KeyAction | null {
  const holder = actionsByKey(bindings).get(code);
  return holder === undefined || holder === wantedFor ? null : holder;
}

export function buttonTakenBy(button: number, wantedFor: PadAction, bindings: Bindings): PadAction | null {
  return PAD_ACTIONS.find((action) => action !== wantedFor && buttonOf(action, bindings) === button) ?? null;
}
