import type { Drill } from '../../sim-core/index.ts';
import type { RunRecord, RunSummary } from '../contract.ts';
import { type Caller, isStaff } from './caller.ts';

/**
 * Whether marks of a drill are kept from the apprentice until an assessor has decided. Looking for a fault is practised without
 * cues as well: there the answer is the whole lesson, so it is told at once unless it was assigned as an assessment.
 */
export function isAssessment(drill: Pick<Drill, 'cueLevel' | 'technique'>): boolean {
  return drill.cueLevel === 'none' && drill.technique !== 'fault-finding';
}

/** The drill as an apprentice gets it: of an assessment, what is marked and the pass mark, but not how much each measure counts. */
export function drillTextFor(caller: Caller, text: string): string {
  if (isStaff(caller)) return text;
  const drill = JSON.parse(text) as Drill;
  return isAssessment(drill) ? withoutWeights(drill) : text;
}

function withoutWeights(drill: Drill): string {
  const measures = drill.rubric.measures.map(({ id }) => ({ id, weight: 1 }));
  return `${JSON.stringify({ ...drill, rubric: { passMark: drill.rubric.passMark, measures } }, null, 2)}\n`;
}

/** A run as the caller may see it in a list: an undecided assessment shows no mark to apprentices. */
export function summaryFor<T extends RunSummary>(caller: Caller, run: T): T {
  return isHidden(caller, run) ? { ...run, score: null, passed: null } : run;
}

/** How a run ended, for the page that sends its end: who sits there since learns neither marks nor decision of who began it. */
export function endFor(caller: Caller, run: RunSummary): RunSummary {
  if (isStaff(caller) || run.personId === null || run.personId === caller.person?.id) return summaryFor(caller, run);
  const assessment = run.assessment && { ...run.assessment, decision: null, decidedAt: null };
  return { ...run, score: null, passed: null, assessment };
}

/**
 * A whole run as the caller may have it. What counts how much in an assessment is kept from apprentices in the run of somebody
 * else too: a demonstration of one was cut by staff or came in a pack, so that there is no decision to wait for.
 */
export function recordFor(caller: Caller, run: RunRecord): RunRecord {
  const isOwn = run.personId !== null && run.personId === caller.person?.id;
  if (isStaff(caller) || (isOwn && !isHidden(caller, run))) return run;
  const drill = JSON.parse(run.drillText) as Drill;
  if (!isHidden(caller, run) && !isAssessment(drill)) return run;
  return { ...summaryFor(caller, run), drillText: withoutWeights(drill), scoreRecord: null };
}

export function isHidden(caller: Caller, run: RunSummary): boolean {
  return !isStaff(caller) && run.assessment?.sealed === true && run.assessment.decision === null;
}
