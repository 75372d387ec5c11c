import type { ErrorCode } from '../../electron/contract.ts';
import { deRefusals } from '../text/de-refusals.ts';
import { inEnglish } from '../text/in-english.ts';
import { type Language, spokenLanguage } from '../text/language.ts';
import { HostError } from './host-client.ts';

/** The host speaks English; in another language what it says is introduced by what its code means. */
const INTRODUCED: Record<Exclude<Language, 'en'>, Record<ErrorCode, string>> = { de: deRefusals };

/** Codes that say it all. */
const WHOLE: ReadonlySet<string> = new Set<ErrorCode>(['wrong-passphrase']);

/** Something that the page itself cannot do, told in the language of the page. */
export class PageError extends Error {}

/** What went wrong, as a sentence for a person; what is not in the language of the page is marked for `<Told>`. */
export function errorWords(error: unknown): string {
  const said = error instanceof Error ? error.message : String(error);
  const language = spokenLanguage();
  if (error instanceof PageError) return said;
  if (!(error instanceof HostError)) return inEnglish(said);
  if (error.code === 'unreachable' || language === 'en') return said;
  const meant = INTRODUCED[language][error.code];
  return WHOLE.has(error.code) ? meant : `${meant} ${inEnglish(said)}`;
}
