import { type ReactNode, useEffect, useRef } from 'react';

/** What came of a press on a button that is gone with it: takes the focus over, so that the keyboard stays where it was. */
export function FocusedStatus({ children }: { children: ReactNode }) {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => line.current?.focus(), []);
  return (
    <p role="status" tabIndex={-1} ref={line}>
      {children}
    </p>
  );
}
