import { de } from './de.ts';
import { en, type TextKey, type TextTable } from './en.ts';
import { keepTogether } from './keep-together.ts';
import { type Language, spokenLanguage } from './language.ts';
import { setApart } from './set-apart.ts';

const TABLES: Record<Language, TextTable> = { en, de };

export type Say = (key: TextKey, values?: Record<string, string | number>) => string;

function sayer(language: Language): Say {
  const table = TABLES[language];
  return (key, values = {}) => {
    const words = table[key].replace(/\{([a-zA-Z]+)\}/g, (_, name: string) => {
      const value = values[name];
      if (value === undefined) throw new RangeError(`The text "${key}" needs a value for {${name}}.`);
      return setApart(String(value));
    });
    return keepTogether(words);
  };
}

const SAYERS: Record<Language, Say> = { en: sayer('en'), de: sayer('de') };

/** Says in one language, whichever is spoken: the same function each time, so that what was made with it is made anew in another. */
export function sayIn(language: Language): Say {
  return SAYERS[language];
}

/**
 * The text of a key in the language that is spoken, with `{name}` replaced by what is given. Throws RangeError where a placeholder is
 * left open.
 */
export const say: Say = (key, values) => SAYERS[spokenLanguage()](key, values);

export function isTextKey(key: string): key is TextKey {
  return Object.hasOwn(en, key);
}
