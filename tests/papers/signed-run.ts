import { contentHash } from '../../electron/host/drill-text.ts';
import { runDigestOf, type VerdictPayload } from '../../electron/host/papers/verdict.ts';
import { faultHand, runFileOf, runHand, windowOfDrill } from '../../sim-core/index.ts';
import { encodeRunFile } from '../../sim-core/run/run-file.ts';
import { drillText, shippedDrill } from '../scenarios/drill-files.ts';

/** Cost of a passphrase guess in tests: a thousandth of the real one. */
export const TEST_SCRYPT_N = 128;
const DRILL = 'guard-patch-straight-3';

/** The text of a real run by the core itself, of a hand with a fault, so that there is something to overrule. */
export function realRunText(seed: number): string {
  const drill = shippedDrill(DRILL);
  const run = runHand(drill, faultHand('stops-short', drill, windowOfDrill(drill)).script, seed);
  return encodeRunFile(runFileOf(run, drillText(`${DRILL}.json`), 'stops-short'));
}

/** A verdict on the run in that text, with its first measure overruled. */
export function verdictOn(runText: string): VerdictPayload {
  const head = JSON.parse(runText.split('\n')[0]) as {
    drill: unknown;
    score: { score: number; measures: { id: string; mark: number }[] };
  };
  return {
    format: 'kerfhand-verdict',
    formatVersion: 1,
    runId: '0b7c2c1e-58a2-4f0b-9d6e-3f6c5c0f9a11',
    runDigest: runDigestOf(runText),
    drillDigest: contentHash(JSON.stringify(head.drill)),
    score: head.score.score,
    marks: head.score.measures.map(({ id, mark }) => ({ measureId: id, mark })),
    overruled: [
      { measureId: head.score.measures[0].id, mark: 55, reason: 'The tab was marked off on purpose – told to stop there.' },
    ],
    decision: 'not-yet-competent',
    reasons: 'Stopped short of the edge twice; the rest is steady.',
    assessor: 'Assessor 01',
    at: '2030-02-01T10:15:00.000Z',
  };
}
