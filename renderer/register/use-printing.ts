import { useSyncExternalStore } from 'react';
import { flushSync } from 'react-dom';

let printing = false;
let themeOnScreen: string | undefined;
const listeners = new Set<() => void>();

function tell(now: boolean): void {
  printing = now;
  // The paper is taken as soon as the event is over: everything has to be drawn by then.
  flushSync(() => {
    for (const listener of listeners) listener();
  });
}

/** Paper is white whatever the screen shows. */
window.addEventListener('beforeprint', () => {
  themeOnScreen = document.documentElement.dataset.theme;
  document.documentElement.dataset.theme = 'light';
  tell(true);
});
window.addEventListener('afterprint', () => {
  if (themeOnScreen !== undefined) document.documentElement.dataset.theme = themeOnScreen;
  tell(false);
});

function subscribe(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}

/** True while the page is being printed: then every row has to be there, and the colours are those of day. */
export function usePrinting(): boolean {
  return useSyncExternalStore(subscribe, () => printing);
}
