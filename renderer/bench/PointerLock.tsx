import { type RefObject, useEffect, useState } from 'react';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

/** Lets the mouse move the torch beyond the edge of the screen. Esc gives the pointer back; the sentence says so all the while. */
export function PointerLock({ stage }: { stage: RefObject<HTMLElement | null> }) {
  const [locked, setLocked] = useState(false);
  useEffect(() => {
    const changed = () => setLocked(document.pointerLockElement !== null && document.pointerLockElement === stage.current);
    document.addEventListener('pointerlockchange', changed);
    return () => {
      document.removeEventListener('pointerlockchange', changed);
      if (document.pointerLockElement) document.exitPointerLock();
    };
  }, [stage]);

  async function lock(): Promise<void> {
    const element = stage.current;
    if (!element) return;
    element.focus({ preventScroll: true });
    try {
      await element.requestPointerLock({ unadjustedMovement: true });
    } catch {
      // Some systems refuse raw movement; the plain lock still works, with the system's own acceleration.
      await Promise.resolve(element.requestPointerLock()).catch(() => undefined);
    }
  }

  return (
    <p className="pointer-lock">
      {locked ? (
        <strong role="status">{say('bench.locked')}</strong>
      ) : (
        <Action kind="quiet" onPress={lock} aria-describedby="lock-hint">
          {say('bench.lock')}
        </Action>
      )}
      <span id="lock-hint" className="out-of-sight">
        {say('bench.lock-hint')}
      </span>
    </p>
  );
}
