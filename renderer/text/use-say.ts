import { useSyncExternalStore } from 'react';
import { onLanguage, spokenLanguage } from './language.ts';
import { type Say, sayIn } from './say.ts';

/** For words that a component keeps: a `say` that is another one in another language, so that what depends on it is made anew. */
export function useSay(): Say {
  return sayIn(useSyncExternalStore(onLanguage, spokenLanguage));
}
