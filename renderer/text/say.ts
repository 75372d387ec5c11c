import { en, type TextKey, type TextTable } from './en.ts';
import { keepTogether } from './keep-together.ts';

const table: TextTable = en;

/** The text of a key, with `{name}` replaced by what is given. Throws RangeError where a placeholder is left open. */
export function say(key: TextKey, values: Record<string, string | number> = {}): string {
  const words = table[key].replace(/\{([a-zA-Z]+)\}/g, (_, name: string) => {
    const value = values[name];
    if (value === undefined) throw new RangeError(`The text "${key}" needs a value for {${name}}.`);
    return String(value);
  });
  return keepTogether(words);
}

export function isTextKey(key: string): key is TextKey {
  return Object.hasOwn(table, key);
}
