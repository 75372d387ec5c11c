import { useEffect, useState } from 'react';
import type { Verdict } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';

/** How far a record can be trusted, as `verify` tells a run file; 'checking' until it was cut again. */
export interface Trust {
  state: Verdict | 'checking' | 'unknown';
  /** What was found, and where; null where there is nothing to add. */
  reason: string | null;
}

/** Has a run cut again and held against its record and against what was handed in. */
export function useTrust(runId: string | null): Trust {
  const [trust, setTrust] = useState<Trust>({ state: 'checking', reason: null });
  useEffect(() => {
    if (runId === null) return;
    let wanted = true;
    setTrust({ state: 'checking', reason: null });
    callHost('checkRun', { runId }).then(
      ({ trust: state, sentence }) => wanted && setTrust({ state, reason: state === 'same' ? null : sentence }),
      (error: Error) => wanted && setTrust({ state: 'unknown', reason: error.message }),
    );
    return () => {
      wanted = false;
    };
  }, [runId]);
  return trust;
}
