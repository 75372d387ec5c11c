import { type RefObject, useEffect, useState } from 'react';
import { lockPointer } from '../input/lock-pointer.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

/** Whether the stage holds the pointer now. */
export function useHeldPointer(stage: RefObject<HTMLElement | null>): boolean {
  const [held, setHeld] = useState(false);
  useEffect(() => {
    const changed = () => setHeld(document.pointerLockElement !== null && document.pointerLockElement === stage.current);
    document.addEventListener('pointerlockchange', changed);
    return () => {
      document.removeEventListener('pointerlockchange', changed);
      if (document.pointerLockElement) document.exitPointerLock();
    };
  }, [stage]);
  return held;
}

/** Lets the mouse move the torch beyond the edge of the screen. Esc gives the pointer back; the sentence says so all the while. */
export function PointerLock({ stage, held }: { stage: RefObject<HTMLElement | null>; held: boolean }) {
  function lock(): void {
    const element = stage.current;
    if (!element) return;
    element.focus({ preventScroll: true });
    void lockPointer(element);
  }
  return (
    <p className="pointer-lock">
      {held ? (
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

/** Over the plate, where the eyes are: how a measured mouse takes the torch, and the way out while the pointer is held. */
export function TorchNote({ oneToOne, held }: { oneToOne: boolean; held: boolean }) {
  if (!held && !oneToOne) return null;
  const words = held ? (oneToOne ? 'hand.taken' : 'bench.locked') : 'hand.take';
  return (
    <p className="torch-note" data-pointer={held ? 'held' : 'free'}>
      {say(words)}
    </p>
  );
}
