import { useEffect, useRef } from 'react';
import type { Replay } from './use-replay.ts';

/** Where keys are letters. */
const WRITTEN_IN = 'textarea, input[type="text"], input[type="password"], [role="dialog"], [role="listbox"]';
/** Controls for which Space has a meaning of its own. */
const OWN_SPACE = 'button, input, [role="slider"], [role="radio"], [role="tab"], [role="dialog"]';

/** Keys of the replay, wherever on the page the focus is, as long as they mean nothing else there. */
export function useReplayKeys(replay: Replay): void {
  const latest = useRef(replay);
  latest.current = replay;
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const { ready: stands, playing, step, play } = latest.current;
      if (!stands || event.ctrlKey || event.metaKey || event.altKey) return;
      const on = (selector: string) => event.target instanceof HTMLElement && event.target.closest(selector) !== null;
      if (on(WRITTEN_IN)) return;
      if (event.key === ',') step(-1);
      else if (event.key === '.') step(1);
      else if (event.key === ' ' && !on(OWN_SPACE)) play(playing === 0 ? 1 : 0);
      else if (event.key === 'b') play(playing === -1 ? 0 : -1);
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
