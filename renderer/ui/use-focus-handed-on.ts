import { type RefObject, useLayoutEffect, useRef } from 'react';

/**
 * For a part of the page that goes away by a press inside it: it stands inside an element with `tabIndex={-1}`, which takes the focus
 * over where the part had it.
 */
export function useFocusHandedOn<T extends HTMLElement>(): RefObject<T | null> {
  const part = useRef<T>(null);
  useLayoutEffect(() => {
    const own = part.current;
    return () => {
      if (own?.contains(document.activeElement)) own.parentElement?.closest<HTMLElement>('[tabindex="-1"]')?.focus();
    };
  }, []);
  return part;
}
