import { encodeHandLog } from './hand-input.ts';
import type { RunFile } from './run-file.ts';
import { storeTrace } from './run-file-trace.ts';
import type { CompletedRun } from './run-hand.ts';
import { CORE_VERSION } from './types.ts';

/** The run file of a scripted hand's whole run, on the drill of that text, under the hand's name. */
export function runFileOf(run: CompletedRun, drillText: string, handName: string): RunFile {
  return {
    coreVersion: CORE_VERSION,
    drillText,
    seed: run.seed,
    hand: { kind: 'script', name: handName },
    choices: run.choices,
    diagnosis: run.diagnosis,
    finished: true,
    tickCount: run.log.length,
    inputs: encodeHandLog(run.log),
    digests: run.digests,
    finalDigest: run.finalDigest,
    trace: storeTrace(run.samples),
    score: run.score,
  };
}
