import { fromBase64, type StoredTrace } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import { drillFromText } from '../drills/read-drill.ts';
import { type ReviewedRun, takeFreshRun } from './fresh-run.ts';
import { keptScore } from './kept-score.ts';

/** A run by its id: the one just cut, or one from the records. Throws with one sentence where it cannot be shown. */
export async function loadRun(id: string): Promise<ReviewedRun> {
  const fresh = takeFreshRun(id);
  if (fresh) return fresh;
  const record = await callHost('getRun', { runId: id });
  return {
    id,
    drill: drillFromText(record.drillText),
    seed: record.seed,
    choices: record.choices,
    diagnosis: record.diagnosis,
    coreVersion: record.coreVersion,
    hand: record.hand,
    handScale: record.handScale,
    personName: record.personName,
    state: record.state,
    inputs: fromBase64(record.inputs),
    tickCount: record.tickCount,
    score: record.scoreRecord && keptScore(record.scoreRecord),
    trace: record.trace as StoredTrace | null,
    recorded: record.digests && record.finalDigest ? { digests: record.digests, finalDigest: record.finalDigest } : null,
    notKept: null,
    guess: record.speedGuess,
    handedInAt: record.assessment?.submittedAt ?? null,
  };
}
