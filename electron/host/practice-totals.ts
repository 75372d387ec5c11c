import { sql } from 'kysely';
import type { RunUsed } from '../contract.ts';
import type { RecordsDatabase } from './records-tables.ts';

/** Weight of the newest mark in a recent one: the last three runs make up four fifths of it. */
const NEWEST_SHARE = 0.4;
const DAY_MS = 24 * 60 * 60 * 1000;

/** The recent mark after one more, as `addToPractice` has it. @param before undefined where that is the first */
export function recentOf(before: number | undefined, newest: number): number {
  return before === undefined ? newest : before + NEWEST_SHARE * (newest - before);
}

/** A finished run as far as the totals need it. */
export interface PractisedRun {
  personId: string;
  drillId: string;
  technique: string;
  /** Of the version of the drill that was cut. */
  material: string;
  endedAt: string;
  score: number;
  passed: boolean;
  marks: readonly { measureId: string; mark: number }[];
  used: RunUsed | null;
}

/** Monday of the week of a time, UTC: '2030-01-28'. */
export function weekOf(timeIso: string): string {
  const time = new Date(timeIso);
  const sinceMonday = (time.getUTCDay() + 6) % 7;
  return new Date(time.getTime() - sinceMonday * DAY_MS).toISOString().slice(0, 10);
}

/** Adds one run to the totals, within the transaction that finishes it. Totals are of apprentices: others try, they do not practise. */
export async function addToPractice(step: RecordsDatabase, run: PractisedRun): Promise<void> {
  const passed = run.passed ? 1 : 0;
  const used = run.used ?? { electrode: 0, nozzle: 0, shield: 0, plateKg: 0, gasM3: 0, minutes: 0 };
  const whose = { person_id: run.personId, drill_id: run.drillId };
  const use = {
    electrode: used.electrode,
    nozzle: used.nozzle,
    shield: used.shield,
    gas_m3: used.gasM3,
    minutes: used.minutes,
  };
  await step
    .insertInto('practice')
    .values({
      ...whose,
      ...use,
      finished: 1,
      passes: passed,
      score_sum: run.score,
      best: run.score,
      recent: run.score,
      last_at: run.endedAt,
    })
    .onConflict((conflict) =>
      conflict.columns(['person_id', 'drill_id']).doUpdateSet((row) => ({
        finished: row('practice.finished', '+', 1),
        passes: row('practice.passes', '+', passed),
        score_sum: row('practice.score_sum', '+', run.score),
        best: sql<number>`case when practice.best < ${run.score} then ${run.score} else practice.best end`,
        recent: sql<number>`practice.recent + ${NEWEST_SHARE} * (${run.score} - practice.recent)`,
        last_at: run.endedAt,
        electrode: row('practice.electrode', '+', use.electrode),
        nozzle: row('practice.nozzle', '+', use.nozzle),
        shield: row('practice.shield', '+', use.shield),
        gas_m3: row('practice.gas_m3', '+', use.gas_m3),
        minutes: row('practice.minutes', '+', use.minutes),
      })),
    )
    .execute();
  if (used.plateKg > 0) {
    await step
      .insertInto('practice_plate')
      .values({ person_id: run.personId, material: run.material, plate_kg: used.plateKg })
      .onConflict((conflict) =>
        conflict
          .columns(['person_id', 'material'])
          .doUpdateSet((row) => ({ plate_kg: row('practice_plate.plate_kg', '+', used.plateKg) })),
      )
      .execute();
  }
  if (run.marks.length > 0) {
    await step
      .insertInto('practice_marks')
      .values(run.marks.map(({ measureId, mark }) => ({ ...whose, measure_id: measureId, runs: 1, recent: mark })))
      .onConflict((conflict) =>
        conflict.columns(['person_id', 'drill_id', 'measure_id']).doUpdateSet((row) => ({
          runs: row('practice_marks.runs', '+', 1),
          recent: sql<number>`practice_marks.recent + ${NEWEST_SHARE} * (excluded.recent - practice_marks.recent)`,
        })),
      )
      .execute();
  }
  await step
    .insertInto('practice_weeks')
    .values({
      person_id: run.personId,
      technique: run.technique,
      week: weekOf(run.endedAt),
      runs: 1,
      passes: passed,
      score_sum: run.score,
    })
    .onConflict((conflict) =>
      conflict.columns(['person_id', 'technique', 'week']).doUpdateSet((row) => ({
        runs: row('practice_weeks.runs', '+', 1),
        passes: row('practice_weeks.passes', '+', passed),
        score_sum: row('practice_weeks.score_sum', '+', run.score),
      })),
    )
    .execute();
}

export interface RunMarks {
  rows: { run_id: string; measure_id: string; mark: number; weight: number }[];
  /** The measure that cost the most points, null where none did. */
  weakest: string | null;
}

/** Marks of a run, one row a measure, from the text of its score record; what a list filters by. */
export function marksOf(runId: string, scoreRecord: string): RunMarks {
  const { measures } = JSON.parse(scoreRecord) as { measures: { id: string; mark: number; weight: number }[] };
  const byId = new Map(measures.map(({ id, mark, weight }) => [id, { run_id: runId, measure_id: id, mark, weight }]));
  const rows = [...byId.values()];
  const lost = ({ mark, weight }: { mark: number; weight: number }) => (100 - mark) * weight;
  const [weakest] = rows.toSorted((a, b) => lost(b) - lost(a));
  return { rows, weakest: weakest && lost(weakest) > 0 ? weakest.measure_id : null };
}

/** Keeps the marks of one run beside it. */
export async function keepMarks(step: RecordsDatabase, runId: string): Promise<{ measureId: string; mark: number }[]> {
  const row = await step.selectFrom('run_contents').select('score_record').where('run_id', '=', runId).executeTakeFirst();
  if (!row?.score_record) return [];
  const { rows, weakest } = marksOf(runId, row.score_record);
  await step.deleteFrom('run_marks').where('run_id', '=', runId).execute();
  if (rows.length > 0) await step.insertInto('run_marks').values(rows).execute();
  await step.updateTable('runs').set({ weakest_measure: weakest }).where('id', '=', runId).execute();
  return rows.map(({ measure_id, mark }) => ({ measureId: measure_id, mark }));
}
