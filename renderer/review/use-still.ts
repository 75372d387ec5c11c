import { useEffect, useState } from 'react';
import type { RunSource } from '../scene/run-source.ts';

/** A picture that has not changed for this long may be drawn sharp; one that is being scrubbed should be quick instead. */
const STILL_AFTER_MS = 700;

/** True once a run has shown the same moment for a while. */
export function useStill(source: RunSource | null): boolean {
  const [still, setStill] = useState(false);
  useEffect(() => {
    if (!source) return;
    const rest = () => setTimeout(() => setStill(true), STILL_AFTER_MS);
    let timer = rest();
    const stop = source.onFrame(() => {
      clearTimeout(timer);
      setStill(false);
      timer = rest();
    });
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, [source]);
  return still;
}
