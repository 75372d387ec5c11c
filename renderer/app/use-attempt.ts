import { useCallback, useRef, useState } from 'react';
import { errorWords } from './error-words.ts';

/** What a form sets off, as it stands. */
export interface Attempt {
  busy: boolean;
  /** Why the last one failed; null where it did not. */
  problem: string | null;
  /** Does it and tells whether it went well. Where one is under way already, nothing is done. */
  begin(work: () => Promise<unknown>): Promise<boolean>;
  /** Takes the sentence back. */
  forget(): void;
}

/** Work that is told about where it was set off: one at a time, with what goes wrong kept as a sentence. */
export function useAttempt(): Attempt {
  const underWay = useRef(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const begin = useCallback(async (work: () => Promise<unknown>) => {
    if (underWay.current) return false;
    underWay.current = true;
    setBusy(true);
    setProblem(null);
    try {
      await work();
      return true;
    } catch (error) {
      setProblem(errorWords(error));
      return false;
    } finally {
      underWay.current = false;
      setBusy(false);
    }
  }, []);
  const forget = useCallback(() => setProblem(null), []);
  return { busy, problem, begin, forget };
}
