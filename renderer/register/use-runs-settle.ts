import { useEffect } from 'react';
import type { RunSummary } from '../../electron/contract.ts';

/** A run whose page was loaded anew or closed counts as unfinished once the host has heard nothing of it for a while, 10 s. */
const ASK_AGAIN_MS = 5000;

/** While one of the listed runs is being cut they are asked for again: what broke off is to be told as that. */
export function useRunsSettle(runs: readonly RunSummary[], ask: () => void): void {
  const anyOpen = runs.some((run) => run.state === 'open');
  useEffect(() => {
    if (!anyOpen) return;
    const asking = setInterval(ask, ASK_AGAIN_MS);
    return () => clearInterval(asking);
  }, [anyOpen, ask]);
}
