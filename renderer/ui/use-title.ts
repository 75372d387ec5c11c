import { useEffect } from 'react';
import { say } from '../text/say.ts';

/** What the window or tab is called: the words, and the name of the app. */
export function useTitle(words: string): void {
  const title = `${words} · ${say('app.name')}`;
  useEffect(() => {
    document.title = title;
  }, [title]);
}
