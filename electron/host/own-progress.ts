import type { Progress } from '../contract.ts';
import { type Caller, isStaff } from './caller.ts';
import type { RecordsDatabase } from './records-tables.ts';

/** Every finished run of a person by technique, and how the measures stand of late. */
export async function ownProgress(db: RecordsDatabase, personId: string, caller: Caller): Promise<Progress> {
  let finished = db
    .selectFrom('runs')
    .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
    .select(['runs.id', 'runs.ended_at', 'runs.score', 'runs.passed', 'drill_versions.drill_id', 'drill_versions.technique'])
    .where('runs.person_id', '=', personId)
    .where('runs.state', '=', 'finished');
  if (!isStaff(caller))
    finished = finished.where((one) => one.or([one('runs.sealed', '=', 0), one('runs.decision', 'is not', null)]));
  const runs = await finished.orderBy('runs.began_at').orderBy('runs.id').execute();
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
    measures: await measuresOfLate(
      db,
      personId,
      runs.map((run) => run.drill_id),
    ),
  };
}

/** @param drillIds drills whose marks may be told */
async function measuresOfLate(db: RecordsDatabase, personId: string, drillIds: readonly string[]): Promise<Progress['measures']> {
  const told = new Set(drillIds);
  const rows = await db.selectFrom('practice_marks').selectAll().where('person_id', '=', personId).execute();
  const ofMeasure = Map.groupBy(
    rows.filter((row) => told.has(row.drill_id)),
    (row) => row.measure_id,
  );
  return [...ofMeasure]
    .map(([measureId, marks]) => {
      const runs = marks.reduce((sum, row) => sum + row.runs, 0);
      return { measureId, runs, recentMark: marks.reduce((sum, row) => sum + row.recent * row.runs, 0) / runs };
    })
    .toSorted((a, b) => a.recentMark - b.recentMark);
}
