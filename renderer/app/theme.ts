import { useLayoutEffect, useSyncExternalStore } from 'react';
import { useYard } from './yard-store.ts';

export type ShownTheme = 'dark' | 'light';

const prefersDark = window.matchMedia('(prefers-color-scheme: dark)');

function subscribe(changed: () => void): () => void {
  prefersDark.addEventListener('change', changed);
  return () => prefersDark.removeEventListener('change', changed);
}

/** The theme that is shown: the one chosen, or that of the system. Also written on the document, where the style sheets read it. */
export function useShownTheme(): ShownTheme {
  const chosen = useYard((state) => state.settings.theme);
  const dark = useSyncExternalStore(subscribe, () => prefersDark.matches);
  const shown: ShownTheme = chosen === 'system' ? (dark ? 'dark' : 'light') : chosen;
  // Before anything that reads the colours of the theme, as the plots do in their effects.
  useLayoutEffect(() => {
    document.documentElement.dataset.theme = shown;
  }, [shown]);
  return shown;
}
