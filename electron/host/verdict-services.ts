import type { VERDICT_VERBS } from '../contract/verdicts.ts';
import type { RunSummary, Verb } from '../contract.ts';
import { type Caller, signedIn } from './caller.ts';
import type { ExportNotes } from './export-notes.ts';
import { HostError } from './host-error.ts';
import type { Moderation } from './moderation.ts';
import type { OwnRuns } from './own-runs.ts';
import type { PaperJobs } from './paper-desk-jobs.ts';
import type { People } from './people.ts';
import type { RunShelf } from './run-shelf.ts';
import type { RunTrusts } from './run-trust.ts';
import { isHidden } from './sealed-assessment.ts';
import type { Services } from './services.ts';
import type { Verdicts } from './verdicts.ts';

export interface VerdictParts {
  people: People;
  shelf: RunShelf;
  own: OwnRuns;
  verdicts: Verdicts;
  moderation: Moderation;
  trusts: RunTrusts;
  jobs: PaperJobs;
  exports: ExportNotes;
}

/** Decisions, notes and moderation. */
export function verdictServices(parts: VerdictParts): Pick<Services, Verb & keyof typeof VERDICT_VERBS> {
  const { people, shelf, own, verdicts, moderation, trusts, jobs, exports } = parts;

  /** An assessor who still has to judge a run blind gets only what they said themselves. */
  async function onlyOwn<T>(runId: string, caller: Caller, rows: readonly T[], authorOf: (row: T) => string): Promise<T[]> {
    const me = signedIn(caller);
    const blind = me.role === 'assessor' && (await moderation.blindRuns(me.id)).has(runId);
    return rows.filter((row) => !blind || authorOf(row) === me.id);
  }

  return {
    startCheck: async ({ runId }, caller) => {
      const run = await shelf.get(runId);
      return jobs.start('check-run', signedIn(caller).id, async ({ signal, onProgress }) => {
        onProgress(0, run.tickCount);
        const check = await trusts.of(run, { signal, onTicks: (ticks) => onProgress(ticks, run.tickCount) });
        onProgress(run.tickCount, run.tickCount);
        return { check };
      });
    },
    signVerdict: (request, caller) => verdicts.sign(request, signedIn(caller)),
    listVerdicts: async ({ runId }, caller) => {
      await own.mustBeSeen(runId, caller);
      await shelf.summary(runId);
      return { verdicts: await onlyOwn(runId, caller, await verdicts.list(runId), (verdict) => verdict.assessorId) };
    },
    exportVerdict: async ({ runId }, caller) => {
      await own.mustBeSeen(runId, caller);
      const me = signedIn(caller);
      if (me.role === 'assessor' && (await moderation.blindRuns(me.id)).has(runId))
        throw new HostError('forbidden', 'Verdicts on this run stay closed to you until your moderation set is through.');
      return await exports.of(verdicts.export(runId), { who: me.id, subject: runId, body: { what: 'verdict' } });
    },
    exportPublicKey: async ({ personId }) => verdicts.exportKey(await people.get(personId)),
    addNote: (request, caller) => verdicts.addNote(request, signedIn(caller)),
    listNotes: async ({ runId }, caller) => {
      await own.mustBeSeen(runId, caller);
      if (isHidden(caller, await shelf.summary(runId))) return { notes: [] };
      return { notes: await onlyOwn(runId, caller, await verdicts.notes(runId), (note) => note.personId) };
    },
    makeModerationSet: (request, caller) => moderation.make(request, signedIn(caller)),
    listModerationSets: async (_request, caller) => ({ sets: await moderation.list(signedIn(caller)) }),
    judgeBlind: (request, caller) => moderation.judge(request, signedIn(caller)),
    getModerationSet: ({ setId }, caller) => moderation.get(setId, signedIn(caller)),
  };
}

/** Runs as an assessor may see them: no decision on those that they still have to judge blind. */
export async function withoutBlindDecisions<T extends RunSummary>(
  moderation: Moderation,
  caller: Caller,
  runs: readonly T[],
): Promise<T[]> {
  if (caller.person?.role !== 'assessor') return [...runs];
  const blind = await moderation.blindRuns(caller.person.id);
  return runs.map((run) =>
    run.assessment && blind.has(run.id) ? { ...run, assessment: { ...run.assessment, decision: null, decidedAt: null } } : run,
  );
}
