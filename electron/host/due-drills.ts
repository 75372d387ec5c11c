import type { Decision, Due } from '../contract.ts';
import { type Caller, isStaff } from './caller.ts';
import type { RecordsDatabase } from './records-tables.ts';

type DueDrill = Due['drills'][number];

/**
 * What somebody has to do, soonest due first, those without a date last.
 * @param blind runs of which no decision may be told
 */
export async function listDue(db: RecordsDatabase, personId: string, caller: Caller, blind: ReadonlySet<string>): Promise<Due[]> {
  const mine = await db
    .selectFrom('assignments')
    .selectAll()
    .where('withdrawn_at', 'is', null)
    .where('id', 'in', (inner) =>
      inner
        .selectFrom('assignment_targets')
        .leftJoin('group_members', 'group_members.group_id', 'assignment_targets.group_id')
        .select('assignment_targets.assignment_id')
        .where((one) =>
          one.or([one('assignment_targets.person_id', '=', personId), one('group_members.person_id', '=', personId)]),
        ),
    )
    .orderBy('created_at')
    .orderBy('id')
    .execute();
  if (mine.length === 0) return [];
  const drills = await db
    .selectFrom('assignment_drills')
    .innerJoin('drill_versions', 'drill_versions.hash', 'assignment_drills.drill_hash')
    .select(['assignment_id', 'drill_hash', 'attempts', 'drill_id', 'title', 'technique'])
    .where(
      'assignment_id',
      'in',
      mine.map((assignment) => assignment.id),
    )
    .orderBy('position')
    .execute();
  const runs = await db
    .selectFrom('runs')
    .select(['id', 'assignment_id', 'drill_hash', 'began_at', 'score', 'passed', 'sealed', 'submitted_at', 'decision'])
    .where('person_id', '=', personId)
    .where('assignment_id', 'is not', null)
    .orderBy('began_at')
    .execute();
  const runsOf = Map.groupBy(runs, (run) => `${run.assignment_id} ${run.drill_hash}`);
  const due = mine.map((assignment) => {
    const standing = drills
      .filter((drill) => drill.assignment_id === assignment.id)
      .map((drill): DueDrill => {
        const tried = runsOf.get(`${assignment.id} ${drill.drill_hash}`) ?? [];
        const shown = tried.filter((run) => isStaff(caller) || run.sealed === 0 || run.decision !== null);
        const submitted = tried.filter((run) => run.submitted_at !== null).at(-1);
        const decision = submitted === undefined || blind.has(submitted.id) ? null : submitted.decision;
        const scores = shown.flatMap((run) => run.score ?? []);
        return {
          drillId: drill.drill_id,
          drillHash: drill.drill_hash,
          title: drill.title,
          technique: drill.technique,
          used: tried.length,
          left: drill.attempts === null ? null : Math.max(0, drill.attempts - tried.length),
          bestScore: scores.length === 0 ? null : Math.max(...scores),
          passed: tried.length > 0 && shown.length === 0 ? null : shown.some((run) => run.passed === 1),
          submittedRunId: submitted?.id ?? null,
          decision: decision as Decision | null,
          lastAt: tried.at(-1)?.began_at ?? null,
        };
      });
    return {
      assignmentId: assignment.id,
      title: assignment.title,
      dueAt: assignment.due_at,
      cueLevel: assignment.cue_level as Due['cueLevel'],
      order: assignment.drill_order as Due['order'],
      drills: standing,
      nextDrillHash: nextDrill(standing, assignment.drill_order as Due['order']),
    };
  });
  const last = '9999';
  return due.toSorted((a, b) => ((a.dueAt ?? last) < (b.dueAt ?? last) ? -1 : (a.dueAt ?? last) > (b.dueAt ?? last) ? 1 : 0));
}

/**
 * What to practise now. As listed: the first that is not done. Mixed: the one that was left alone for longest, untried ones first,
 * so that drills take turns and none follows on itself while there is another (mixed and spaced practice is kept better:
 * Shea and Morgan 1979).
 */
export function nextDrill(drills: readonly DueDrill[], order: Due['order']): string | null {
  const open = drills.filter(
    (drill) => drill.left !== 0 && drill.decision !== 'competent' && !(drill.submittedRunId !== null && drill.decision === null),
  );
  const undone = open.filter((drill) => drill.passed !== true);
  const candidates = undone.length > 0 ? undone : open.filter((drill) => drill.submittedRunId === null);
  if (order === 'as-listed') return candidates[0]?.drillHash ?? null;
  return candidates.toSorted((a, b) => ((a.lastAt ?? '') < (b.lastAt ?? '') ? -1 : 1))[0]?.drillHash ?? null;
}
