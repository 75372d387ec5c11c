import { type RefObject, useLayoutEffect, useRef } from 'react';

/**
 * Tells readers of the screen the value of a slider in the words that are drawn beside it; by itself the widget tells the bare number.
 * What it gives is the `inputRef` of the rider.
 */
export function useToldValue(words: string): RefObject<HTMLInputElement | null> {
  const input = useRef<HTMLInputElement>(null);
  // After every drawing: with each change of the value the widget writes its own.
  useLayoutEffect(() => input.current?.setAttribute('aria-valuetext', words));
  return input;
}
