import type { ROSTER_VERBS } from '../contract/roster.ts';
import type { YARD_VERBS } from '../contract/yard.ts';
import type { Verb } from '../contract.ts';
import type { Assignments } from './assignments.ts';
import { mustBeOwn, signedIn } from './caller.ts';
import { classView } from './class-view.ts';
import { listDue } from './due-drills.ts';
import type { ExportNotes } from './export-notes.ts';
import type { Groups } from './groups.ts';
import type { Moderation } from './moderation.ts';
import { ownProgress } from './own-progress.ts';
import type { OwnRuns } from './own-runs.ts';
import type { People } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import type { ReviewQueue } from './review-queue.ts';
import type { RosterExchange } from './roster-exchange.ts';
import { summaryFor } from './sealed-assessment.ts';
import type { Services } from './services.ts';
import type { SettingsStore } from './settings-store.ts';
import { withoutBlindDecisions } from './verdict-services.ts';

export interface YardParts {
  db: RecordsDatabase;
  people: People;
  groups: Groups;
  assignments: Assignments;
  queue: ReviewQueue;
  own: OwnRuns;
  settings: SettingsStore;
  moderation: Moderation;
  roster: RosterExchange;
  exports: ExportNotes;
}

/** Groups, assignments, the queue and the views over a class. */
export function yardServices(parts: YardParts): Pick<Services, Verb & (keyof typeof YARD_VERBS | keyof typeof ROSTER_VERBS)> {
  const { db, people, groups, assignments, queue, own, settings, moderation, roster, exports } = parts;
  return {
    listGroups: async () => ({ groups: await groups.list() }),
    saveGroup: (request, caller) => groups.save(request, signedIn(caller).id),
    deleteGroup: ({ groupId }, caller) => groups.delete(groupId, signedIn(caller).id),
    assign: (request, caller) => assignments.assign(request, signedIn(caller).id),
    listAssignments: async () => ({ assignments: await assignments.list() }),
    withdrawAssignment: ({ assignmentId }, caller) => assignments.withdraw(assignmentId, signedIn(caller).id),
    listDue: async ({ personId }, caller) => {
      mustBeOwn(caller, personId, 'Assignments');
      await people.get(personId);
      return { due: await listDue(db, personId, caller, await moderation.blindRuns(signedIn(caller).id)) };
    },
    submitRun: async ({ runId }, caller) => {
      await own.mustBeHandedIn(runId, caller);
      return summaryFor(caller, await queue.submit(runId, caller.person?.id ?? null));
    },
    checkHandIn: async ({ runIds }, caller) => {
      const reasons: { runId: string; reason: string | null }[] = [];
      for (const runId of runIds) {
        await own.mustBeHandedIn(runId, caller);
        reasons.push({ runId, reason: await queue.whyNot(runId) });
      }
      return { reasons };
    },
    previewRoster: ({ text }) => roster.preview(text),
    importRoster: ({ text }, caller) => roster.import(text, signedIn(caller).id),
    exportRoster: (_request, caller) =>
      exports.of(roster.export(), { who: signedIn(caller).id, subject: 'roster', body: { what: 'roster' } }),
    listQueue: async (request, caller) => {
      const { total, rows } = await queue.list(request);
      const runs = await withoutBlindDecisions(
        moderation,
        caller,
        rows.map((row) => row.run),
      );
      return {
        total,
        rows: rows.map((row, index) => {
          const run = runs[index] ?? row.run;
          return run === row.run ? row : { ...row, run, decidedBy: null };
        }),
      };
    },
    getClassView: async ({ groupId }) => classView(db, groupId, (await settings.get()).prices),
    getProgress: async ({ personId }, caller) => {
      mustBeOwn(caller, personId, 'Progress');
      await people.get(personId);
      return await ownProgress(db, personId, caller);
    },
  };
}
