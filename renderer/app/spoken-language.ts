import { useLayoutEffect } from 'react';
import { type Language, languageOf, speak } from '../text/language.ts';
import { useYard } from './yard-store.ts';

// Before any component hears of the change, so that it is drawn in the new language.
useYard.subscribe(({ settings }) => speak(languageOf(settings.language)));

/**
 * The language of the page. Also written on the document, where readers of the screen and hyphenation look. Whoever uses it is drawn
 * anew in another language, with all below: nothing is mounted anew, so what was typed and what is being cut stay.
 */
export function useSpokenLanguage(): Language {
  const language = languageOf(useYard((state) => state.settings.language));
  useLayoutEffect(() => {
    document.documentElement.lang = language;
  }, [language]);
  return language;
}
