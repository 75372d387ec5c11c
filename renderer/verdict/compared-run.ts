import { CORE_VERSION, type RunFile, type Score } from '../../sim-core/index.ts';
import { callHost } from '../app/host-client.ts';
import { drillFromText } from '../drills/read-drill.ts';
import type { ReviewedRun } from '../review/fresh-run.ts';
import { loadRun } from '../review/load-run.ts';
import { say } from '../text/say.ts';
import { type CutReference, cutReference } from './cut-reference.ts';

/** Instead of a run: the hand that does it right. */
export const REFERENCE = 'reference';

function reviewedReference(run: RunFile): ReviewedRun {
  return {
    id: REFERENCE,
    drill: drillFromText(run.drillText),
    seed: run.seed,
    choices: run.choices,
    diagnosis: run.diagnosis,
    coreVersion: CORE_VERSION,
    hand: run.hand,
    handScale: null,
    personName: say('compare.reference'),
    state: 'finished',
    inputs: run.inputs,
    tickCount: run.tickCount,
    score: run.score as Score,
    trace: run.trace,
    recorded: null,
    notKept: null,
    guess: null,
  };
}

export interface ComparedRun {
  answer: Promise<ReviewedRun>;
  cancel(): void;
}

/** Has the reference hand cut the drill of a run, under the very version that the run was cut under. */
function referenceOfRun(runId: string): ComparedRun {
  let cutting: CutReference | null = null;
  let given = true;
  const answer = callHost('getRun', { runId }).then(async ({ drillText }) => {
    if (!given) throw new Error('Nobody waits for the reference hand any more.');
    cutting = cutReference(drillText);
    return reviewedReference(await cutting.answer);
  });
  return {
    answer,
    cancel() {
      given = false;
      cutting?.cancel();
    },
  };
}

/** What a run is laid beside: another run, or the reference hand. */
export function otherRun(runId: string, otherId: string): ComparedRun {
  return otherId === REFERENCE ? referenceOfRun(runId) : { answer: loadRun(otherId), cancel: () => undefined };
}
