/** Languages with a complete table of words, each named in itself. The first is spoken until another is chosen. */
export const LANGUAGES = { en: 'English', de: 'Deutsch' } as const;
export type Language = keyof typeof LANGUAGES;
export const LANGUAGE_IDS = Object.keys(LANGUAGES) as Language[];

let spoken: Language = 'en';
const listeners = new Set<() => void>();

/** The language of that tag; English for one that has no table. */
export function languageOf(tag: string): Language {
  return Object.hasOwn(LANGUAGES, tag) ? (tag as Language) : 'en';
}

/** The language that words and figures are written in now; also the BCP 47 tag that `Intl` takes. */
export function spokenLanguage(): Language {
  return spoken;
}

export function speak(language: Language): void {
  if (language === spoken) return;
  spoken = language;
  for (const listener of listeners) listener();
}

/** Calls back when another language is spoken, until what it returns is called. */
export function onLanguage(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Something that is made once for each language, such as a formatter, read in the one spoken now. */
export function perLanguage<T>(make: (language: Language) => T): () => T {
  const made = new Map<Language, T>();
  return () => {
    const known = made.get(spoken);
    if (known !== undefined) return known;
    const one = make(spoken);
    made.set(spoken, one);
    return one;
  };
}
