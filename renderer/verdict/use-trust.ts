import { useEffect, useState } from 'react';
import type { RunRecord } from '../../electron/contract.ts';
import { fromBase64, type RunFile, type Verdict } from '../../sim-core/index.ts';
import { callHost, HostError } from '../app/host-client.ts';
import { drillFromText } from '../drills/read-drill.ts';
import { askCore, type CoreQuestion } from './ask-core.ts';

/** How far a record can be trusted, as `verify` tells a run file; 'checking' until the core has cut it again. */
export interface Trust {
  state: Verdict | 'checking';
  /** Where it differs, or what is broken; null where there is nothing to add. */
  reason: string | null;
}

function runFileOfRecord(record: RunRecord): RunFile {
  return {
    coreVersion: record.coreVersion,
    drillText: record.drillText,
    seed: record.seed,
    hand: record.hand,
    choices: record.choices,
    diagnosis: record.diagnosis,
    finished: record.state === 'finished',
    tickCount: record.tickCount,
    inputs: fromBase64(record.inputs),
    digests: record.digests ?? [],
    finalDigest: record.finalDigest,
    trace: record.trace,
    score: record.scoreRecord as RunFile['score'],
  };
}

/** Cuts the record of a run again and holds states, marks and trace against what is kept. */
export function useTrust(runId: string | null): Trust {
  const [trust, setTrust] = useState<Trust>({ state: 'checking', reason: null });
  useEffect(() => {
    if (runId === null) return;
    let wanted = true;
    let question: CoreQuestion<unknown> | null = null;
    const tell = (next: Trust) => wanted && setTrust(next);
    setTrust({ state: 'checking', reason: null });
    const check = async () => {
      try {
        const record = await callHost('getRun', { runId });
        if (!wanted) return;
        const asked = askCore(
          { kind: 'verify', run: runFileOfRecord(record), drill: drillFromText(record.drillText) },
          'verified',
        );
        question = asked;
        const { verification } = await asked.answer;
        tell({ state: verification.verdict, reason: verification.verdict === 'same' ? null : verification.reason });
      } catch (error) {
        // What cannot be read or set up is damaged; a host that does not answer says nothing about the run.
        if (error instanceof HostError && error.code !== 'damaged' && error.code !== 'bad-file') return;
        tell({ state: 'damaged', reason: error instanceof Error ? error.message : String(error) });
      }
    };
    void check();
    return () => {
      wanted = false;
      question?.cancel();
    };
  }, [runId]);
  return trust;
}
