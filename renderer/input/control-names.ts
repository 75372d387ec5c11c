import type { HandSettings } from '../../electron/contract.ts';
import { isTextKey, say } from '../text/say.ts';
import { buttonOf, KEY_ACTIONS, type KeyAction, keysOf, PAD_ACTIONS, type PadAction } from './hand-actions.ts';

/** What is printed on a key, as far as its place tells: letters and digits by themselves, the others by name. */
export function keyName(code: string): string {
  const named = `key.${code}`;
  if (isTextKey(named)) return say(named);
  return code.replace(/^(Key|Digit)/, '').replace(/^Numpad/, `${say('key.numpad')} `);
}

export function buttonName(button: number): string {
  const named = `pad.${button}`;
  return isTextKey(named) ? say(named) : say('pad.other', { number: button });
}

export function keyNames(action: KeyAction, settings: HandSettings, most = 3): string {
  const names = keysOf(action, settings).slice(0, most).map(keyName);
  return names.length === 0 ? say('keys.none') : names.join(` ${say('keys.or')} `);
}

/** The four keys of a cross; the arrows are called by what they are together. */
function fourKeys(actions: readonly KeyAction[], settings: HandSettings): string {
  const codes = actions.map((action) => keysOf(action, settings)[0]);
  if (codes.every((code) => code?.startsWith('Arrow'))) return say('key.arrows');
  return actions.map((action) => keyNames(action, settings, 1)).join(', ');
}

const camel = (action: string) => action.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());

/** Names of all controls as they are now, for sentences with places to fill: {triggerKeys}, {raisePad}, {moveKeys}, {leanStick}... */
export function controlWords(settings: HandSettings): Record<string, string> {
  const left = say('pad.left-stick');
  const right = say('pad.right-stick');
  return {
    ...Object.fromEntries(KEY_ACTIONS.map((action) => [`${camel(action)}Keys`, keyNames(action, settings)])),
    ...Object.fromEntries(KEY_ACTIONS.map((action) => [`${camel(action)}Key`, keyNames(action, settings, 1)])),
    ...Object.fromEntries(
      PAD_ACTIONS.map((action: PadAction) => [`${camel(action)}Pad`, buttonName(buttonOf(action, settings))]),
    ),
    moveKeys: fourKeys(['move-left', 'move-right', 'move-away', 'move-near'], settings),
    leanKeys: fourKeys(['lean-left', 'lean-right', 'lean-away', 'lean-near'], settings),
    moveStick: settings.padMoves === 'left' ? left : right,
    leanStick: settings.padMoves === 'left' ? right : left,
    penTrigger: say(`controls.pen-trigger.${settings.penTrigger}`),
    penHeight: say(`controls.pen-height.${settings.penTrigger}`),
  };
}
