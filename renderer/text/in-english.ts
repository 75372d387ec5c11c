import { spokenLanguage } from './language.ts';

/** Unicode's isolates (UAX 9): not to be seen, and they say that what is between them is a text of its own. */
const [BEGIN, END] = ['\u2068', '\u2069'];

/** Words of the host or the core, which speak English, marked where they stand inside another language. */
export function inEnglish(words: string): string {
  return spokenLanguage() === 'en' || words === '' ? words : `${BEGIN}${words}${END}`;
}

/** Words split at those marks: every other part, beginning with the second, is English. */
export function splitAtEnglish(words: string): string[] {
  return words.split(new RegExp(`${BEGIN}([^${END}]*)${END}`));
}
