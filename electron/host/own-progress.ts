import type { Progress } from '../contract.ts';
import { type Caller, isStaff } from './caller.ts';
import { recentOf } from './practice-totals.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { isOpen } from './run-shelf.ts';

/** Every finished run of a person by technique, and how the measures stand of late. */
export async function ownProgress(db: RecordsDatabase, personId: string, caller: Caller): Promise<Progress> {
  const runs = await finishedRuns(db, personId, caller)
    .select(['runs.id', 'runs.ended_at', 'runs.score', 'runs.passed', 'drill_versions.drill_id', 'drill_versions.technique'])
    .orderBy('runs.began_at')
    .orderBy('runs.id')
    .execute();
  const techniques = [...Map.groupBy(runs, (run) => run.technique)].map(([technique, rows]) => ({
    technique,
    runs: rows.flatMap((run) =>
      run.score === null || run.ended_at === null
        ? []
        : { runId: run.id, drillId: run.drill_id, at: run.ended_at, score: run.score, passed: run.passed === 1 },
    ),
  }));
  return {
    techniques: techniques.toSorted((a, b) => (a.technique < b.technique ? -1 : 1)),
    measures: measuresOfLate(isStaff(caller) ? await keptMarks(db, personId) : await openMarks(db, personId, caller)),
  };
}

/** Those of which the caller may know the marks. */
function finishedRuns(db: RecordsDatabase, personId: string, caller: Caller) {
  const finished = db
    .selectFrom('runs')
    .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
    .where('runs.person_id', '=', personId)
    .where('runs.state', '=', 'finished');
  if (isStaff(caller)) return finished;
  return finished.where(isOpen);
}

/** A measure of one drill: how often it was marked, and how it stands of late. */
interface MarksOfLate {
  measure_id: string;
  runs: number;
  recent: number;
}

/** As the totals have them, undecided assessments and all. */
function keptMarks(db: RecordsDatabase, personId: string): Promise<MarksOfLate[]> {
  return db.selectFrom('practice_marks').select(['measure_id', 'runs', 'recent']).where('person_id', '=', personId).execute();
}

/** Added up as the totals are, from runs alone whose marks are told: two readings of a total would give away what came between. */
async function openMarks(db: RecordsDatabase, personId: string, caller: Caller): Promise<MarksOfLate[]> {
  const rows = await finishedRuns(db, personId, caller)
    .innerJoin('run_marks', 'run_marks.run_id', 'runs.id')
    .select(['drill_versions.drill_id', 'run_marks.measure_id', 'run_marks.mark'])
    .orderBy('runs.ended_at')
    .orderBy('runs.id')
    .execute();
  return [...Map.groupBy(rows, (row) => `${row.drill_id} ${row.measure_id}`).values()].map((marks) => ({
    measure_id: marks[0].measure_id,
    runs: marks.length,
    recent: marks.map((row) => row.mark).reduce((recent, mark) => recentOf(recent, mark)),
  }));
}

function measuresOfLate(rows: readonly MarksOfLate[]): Progress['measures'] {
  return [...Map.groupBy(rows, (row) => row.measure_id)]
    .map(([measureId, marks]) => {
      const runs = marks.reduce((sum, row) => sum + row.runs, 0);
      return { measureId, runs, recentMark: marks.reduce((sum, row) => sum + row.recent * row.runs, 0) / runs };
    })
    .toSorted((a, b) => a.recentMark - b.recentMark);
}
