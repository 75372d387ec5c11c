import type { Insertable } from 'kysely';
import type { RunUsed } from '../contract.ts';
import { marksOf, recentOf, weekOf } from './practice-totals.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import type { SettingsStore } from './settings-store.ts';

/** Counted up when the sums are made another way: kept ones are then made anew. */
const TOTALS_VERSION = 2;
/** Runs whose marks are read and written in one statement: some 4000 rows, well below SQLite's limit of 32,766 values. */
const RUNS_AT_ONCE = 400;
const ROWS_AT_ONCE = 1000;

type PracticeRow = Insertable<RecordsTables['practice']>;
type PlateRow = Insertable<RecordsTables['practice_plate']>;
type MarkRow = Insertable<RecordsTables['practice_marks']>;
type WeekRow = Insertable<RecordsTables['practice_weeks']>;

/** Told of runs that were added up, of how many. */
export type OnRuns = (done: number, total: number) => void;

/** Makes the totals from the runs where they were never made, or made by another version. */
export async function ensurePractice(
  db: RecordsDatabase,
  settings: SettingsStore,
  onRuns: OnRuns = () => undefined,
): Promise<void> {
  if ((await settings.read('practice-totals')) === TOTALS_VERSION) return;
  await rebuildPractice(db, onRuns);
  await settings.write('practice-totals', TOTALS_VERSION);
}

/**
 * Forgets the totals and makes them again from every finished run, in the order in which they ended: added up here as
 * `addToPractice` adds to them one by one, and written some thousand rows at a time.
 */
export async function rebuildPractice(db: RecordsDatabase, onRuns: OnRuns = () => undefined): Promise<void> {
  await db.transaction().execute(async (step) => {
    for (const table of ['practice', 'practice_plate', 'practice_marks', 'practice_weeks'] as const)
      await step.deleteFrom(table).execute();
    const totals = new Totals();
    const runs = await practisedRuns(step);
    for (let from = 0; from < runs.length; from += RUNS_AT_ONCE) {
      const some = runs.slice(from, from + RUNS_AT_ONCE);
      const marks = await ensureMarks(
        step,
        some.map((run) => run.id),
      );
      for (const run of some) totals.add(run, marks.get(run.id) ?? []);
      onRuns(from + some.length, runs.length);
    }
    await totals.write(step);
  });
}

type PractisedRow = Awaited<ReturnType<typeof practisedRuns>>[number];

function practisedRuns(step: RecordsDatabase) {
  return step
    .selectFrom('runs')
    .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
    .innerJoin('people', 'people.id', 'runs.person_id')
    .select(['runs.id', 'runs.passed', 'runs.used', 'people.id as personId'])
    .select(['drill_versions.drill_id', 'drill_versions.technique', 'drill_versions.material'])
    .select((row) => [row.ref('runs.ended_at').$notNull().as('endedAt'), row.ref('runs.score').$notNull().as('score')])
    .where('runs.source', '=', 'here')
    .where('runs.state', '=', 'finished')
    .where('people.role', '=', 'apprentice')
    .where('runs.ended_at', 'is not', null)
    .where('runs.score', 'is not', null)
    .orderBy('runs.ended_at')
    .orderBy('runs.id')
    .execute();
}

type Marks = ReturnType<typeof marksOf>['rows'];

/** Marks of runs; where they do not stand beside the run yet, as in records of before they were kept, they are written. */
async function ensureMarks(step: RecordsDatabase, runIds: string[]): Promise<Map<string, Marks>> {
  const contents = await step
    .selectFrom('run_contents')
    .select(['run_id', 'score_record'])
    .select((row) =>
      row.exists(row.selectFrom('run_marks').select('mark').whereRef('run_marks.run_id', '=', 'run_contents.run_id')).as('kept'),
    )
    .where('run_id', 'in', runIds)
    .execute();
  const marks = new Map<string, Marks>();
  const missing: Marks = [];
  const byWeakest = new Map<string | null, string[]>();
  for (const { run_id, score_record, kept } of contents) {
    if (score_record === null) continue;
    const { rows, weakest } = marksOf(run_id, score_record);
    marks.set(run_id, rows);
    if (kept) continue;
    missing.push(...rows);
    byWeakest.set(weakest, [...(byWeakest.get(weakest) ?? []), run_id]);
  }
  await insertAll(missing, (rows) => step.insertInto('run_marks').values(rows).execute());
  for (const [weakest_measure, ids] of byWeakest)
    await step.updateTable('runs').set({ weakest_measure }).where('id', 'in', ids).execute();
  return marks;
}

/** The sums while they are being made. */
class Totals {
  readonly #drills = new Map<string, PracticeRow>();
  readonly #plate = new Map<string, PlateRow>();
  readonly #marks = new Map<string, MarkRow>();
  readonly #weeks = new Map<string, WeekRow>();

  add({ personId, drill_id, technique, material, endedAt, score, passed, used }: PractisedRow, marks: Marks): void {
    const whose = { person_id: personId, drill_id };
    const use = used === null ? null : (JSON.parse(used) as RunUsed);
    const pass = passed === 1 ? 1 : 0;
    const before = this.#drills.get(`${personId} ${drill_id}`);
    this.#drills.set(`${personId} ${drill_id}`, {
      ...whose,
      finished: (before?.finished ?? 0) + 1,
      passes: (before?.passes ?? 0) + pass,
      score_sum: (before?.score_sum ?? 0) + score,
      best: Math.max(before?.best ?? score, score),
      recent: recentOf(before?.recent, score),
      last_at: endedAt,
      electrode: (before?.electrode ?? 0) + (use?.electrode ?? 0),
      nozzle: (before?.nozzle ?? 0) + (use?.nozzle ?? 0),
      shield: (before?.shield ?? 0) + (use?.shield ?? 0),
      gas_m3: (before?.gas_m3 ?? 0) + (use?.gasM3 ?? 0),
      minutes: (before?.minutes ?? 0) + (use?.minutes ?? 0),
    });
    const plateKg = use?.plateKg ?? 0;
    if (plateKg > 0) {
      const key = `${personId} ${material}`;
      const plate_kg = (this.#plate.get(key)?.plate_kg ?? 0) + plateKg;
      this.#plate.set(key, { person_id: personId, material, plate_kg });
    }
    for (const { measure_id, mark } of marks) {
      const key = `${personId} ${drill_id} ${measure_id}`;
      const of = this.#marks.get(key);
      this.#marks.set(key, { ...whose, measure_id, runs: (of?.runs ?? 0) + 1, recent: recentOf(of?.recent, mark) });
    }
    const week = weekOf(endedAt);
    const key = `${personId} ${week} ${technique}`;
    const of = this.#weeks.get(key);
    const runs = (of?.runs ?? 0) + 1;
    const score_sum = (of?.score_sum ?? 0) + score;
    this.#weeks.set(key, { person_id: personId, technique, week, runs, passes: (of?.passes ?? 0) + pass, score_sum });
  }

  async write(step: RecordsDatabase): Promise<void> {
    await insertAll([...this.#drills.values()], (rows) => step.insertInto('practice').values(rows).execute());
    await insertAll([...this.#plate.values()], (rows) => step.insertInto('practice_plate').values(rows).execute());
    await insertAll([...this.#marks.values()], (rows) => step.insertInto('practice_marks').values(rows).execute());
    await insertAll([...this.#weeks.values()], (rows) => step.insertInto('practice_weeks').values(rows).execute());
  }
}

async function insertAll<T>(rows: readonly T[], insert: (some: T[]) => Promise<unknown>): Promise<void> {
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) await insert(rows.slice(from, from + ROWS_AT_ONCE));
}

/** Sentences for whoever waits at the start: one for each tenth, and none for a yard whose runs are added up in a moment. */
export function practiceWords(tell: (line: string) => void): OnRuns {
  let toldTenths = -1;
  return (done, total) => {
    const tenths = Math.floor((10 * done) / total);
    if (total <= RUNS_AT_ONCE || tenths === toldTenths) return;
    toldTenths = tenths;
    tell(`Practice is being added up, once after the update: ${done} of ${total} runs.`);
  };
}
