import { type ExpressionBuilder, sql } from 'kysely';
import type { ClassView, Settings } from '../contract.ts';
import { personName } from './people.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';

type Person = ClassView['people'][number];
type DrillLine = ClassView['drills'][number];
/** Recent mark of a measure: of one person, or the mean over a class. */
type DrillMark = { drill_id: string; measure_id: string; recent: number };

/** From so many finished runs without a pass somebody counts as stuck. */
const STUCK_AFTER = 3;

/**
 * A class at a glance, out of the running totals; the database does the sums, so that a large yard is no slower to look at.
 * @param groupId null = every apprentice
 */
export async function classView(db: RecordsDatabase, groupId: string | null, prices: Settings['prices']): Promise<ClassView> {
  const titles = new Map((await drillTitles(db)).map((drill) => [drill.drill_id, drill]));
  return {
    people: await personLines(db, groupId, titles, prices),
    drills: await drillLines(db, groupId, titles),
    curves: await curves(db, groupId),
  };
}

type Titles = ReadonlyMap<string, { title: string; technique: string }>;
type Totals = 'practice' | 'practice_plate' | 'practice_marks' | 'practice_weeks' | 'people';

/** Narrows totals, which are of apprentices, to the members of a group. */
const ofClass = (groupId: string | null, column: 'person_id' | 'id') => (one: ExpressionBuilder<RecordsTables, Totals>) =>
  groupId === null
    ? one.lit(true)
    : one(column, 'in', one.selectFrom('group_members').select('group_members.person_id').where('group_id', '=', groupId));

/** The newest title and technique of every drill that was ever cut. */
async function drillTitles(db: RecordsDatabase) {
  return await db.selectFrom('drill_versions').select(['drill_id', 'title', 'technique']).orderBy('added_at').execute();
}

async function personLines(
  db: RecordsDatabase,
  groupId: string | null,
  titles: Titles,
  prices: Settings['prices'],
): Promise<Person[]> {
  const people = await db
    .selectFrom('people')
    .select(['id', 'role', 'number'])
    .where(groupId === null ? (one) => one('role', '=', 'apprentice') : ofClass(groupId, 'id'))
    .orderBy('role')
    .orderBy('number')
    .execute();
  const sums = await db
    .selectFrom('practice')
    .select('person_id')
    .select((one) => [
      one.fn.sum<number>('finished').as('finished'),
      one.fn.countAll<number>().as('tried'),
      one.fn.countAll<number>().filterWhere('passes', '>', 0).as('passed'),
      one.fn.avg<number>('recent').as('recent'),
      one.fn.max('last_at').as('last_at'),
    ])
    .where(ofClass(groupId, 'person_id'))
    .groupBy('person_id')
    .execute();
  const sumsOf = new Map(sums.map((row) => [row.person_id, row]));
  const spent = await spentByPerson(db, groupId, prices);
  const stuck = await stuckByPerson(db, groupId, titles);
  return people.map(({ id, role, number }) => {
    const sum = sumsOf.get(id);
    return {
      personId: id,
      name: personName(role, number),
      finished: sum?.finished ?? 0,
      drillsTried: sum?.tried ?? 0,
      drillsPassed: sum?.passed ?? 0,
      recentScore: sum?.recent ?? null,
      lastAt: sum?.last_at ?? null,
      stuck: stuck.get(id) ?? null,
      spent: spent.get(id) ?? 0,
    };
  });
}

/** What a real shop would have spent on each, at these prices. */
async function spentByPerson(
  db: RecordsDatabase,
  groupId: string | null,
  prices: Settings['prices'],
): Promise<Map<string, number>> {
  const rows = await db
    .selectFrom('practice')
    .select('person_id')
    .select((one) =>
      (['electrode', 'nozzle', 'shield', 'gas_m3', 'minutes'] as const).map((column) => one.fn.sum<number>(column).as(column)),
    )
    .where(ofClass(groupId, 'person_id'))
    .groupBy('person_id')
    .execute();
  const plates = await db.selectFrom('practice_plate').selectAll().where(ofClass(groupId, 'person_id')).execute();
  const spent = new Map<string, number>();
  const platePerKg: Readonly<Record<string, number>> = prices.platePerKg;
  for (const row of rows) {
    const cost =
      row.electrode * prices.electrode +
      row.nozzle * prices.nozzle +
      row.shield * prices.shield +
      row.gas_m3 * prices.gasPerM3 +
      (row.minutes / 60) * prices.stationPerHour;
    spent.set(row.person_id, cost);
  }
  for (const { person_id, material, plate_kg } of plates)
    spent.set(person_id, (spent.get(person_id) ?? 0) + plate_kg * (platePerKg[material] ?? 0));
  return spent;
}

/** The drill in which each is stuck, the one with the lowest score of late where there are several. */
async function stuckByPerson(db: RecordsDatabase, groupId: string | null, titles: Titles): Promise<Map<string, Person['stuck']>> {
  const rows = await db
    .selectFrom('practice')
    .select(['person_id', 'drill_id', 'finished', 'recent'])
    .where('passes', '=', 0)
    .where('finished', '>=', STUCK_AFTER)
    .where(ofClass(groupId, 'person_id'))
    .orderBy('recent')
    .execute();
  const worst = [...Map.groupBy(rows, (row) => row.person_id).values()].flatMap(([first]) => first ?? []);
  const marks = await db
    .selectFrom('practice')
    .innerJoin('practice_marks', (join) =>
      join
        .onRef('practice_marks.person_id', '=', 'practice.person_id')
        .onRef('practice_marks.drill_id', '=', 'practice.drill_id'),
    )
    .select(['practice_marks.person_id', 'practice_marks.drill_id', 'practice_marks.measure_id', 'practice_marks.recent'])
    .where('practice.passes', '=', 0)
    .where('practice.finished', '>=', STUCK_AFTER)
    .execute();
  const marksOf = Map.groupBy(marks, (mark) => `${mark.person_id} ${mark.drill_id}`);
  const stuck = new Map<string, Person['stuck']>();
  for (const row of worst) {
    const lowest = lowestMark(marksOf.get(`${row.person_id} ${row.drill_id}`) ?? []);
    stuck.set(row.person_id, {
      drillId: row.drill_id,
      drillTitle: titles.get(row.drill_id)?.title ?? row.drill_id,
      finished: row.finished,
      recentScore: row.recent,
      measureId: lowest?.measureId ?? null,
      measureMark: lowest?.mark ?? null,
    });
  }
  return stuck;
}

/** Drills by difficulty: the one that is passed least first. */
async function drillLines(db: RecordsDatabase, groupId: string | null, titles: Titles): Promise<DrillLine[]> {
  const rows = await db
    .selectFrom('practice')
    .select('drill_id')
    .select((one) => [
      one.fn.countAll<number>().as('people'),
      one.fn.sum<number>('finished').as('finished'),
      sql<number>`1.0 * sum(passes) / sum(finished)`.as('pass_share'),
      sql<number>`sum(score_sum) / sum(finished)`.as('mean_score'),
    ])
    .where(ofClass(groupId, 'person_id'))
    .groupBy('drill_id')
    .orderBy('pass_share')
    .orderBy('mean_score')
    .execute();
  const marks = await db
    .selectFrom('practice_marks')
    .select(['drill_id', 'measure_id'])
    .select((one) => one.fn.avg<number>('recent').as('recent'))
    .where(ofClass(groupId, 'person_id'))
    .groupBy(['drill_id', 'measure_id'])
    .execute();
  const marksOf = Map.groupBy(marks, (mark) => mark.drill_id);
  return rows.map((row) => ({
    drillId: row.drill_id,
    title: titles.get(row.drill_id)?.title ?? row.drill_id,
    technique: titles.get(row.drill_id)?.technique ?? 'unknown',
    people: row.people,
    finished: row.finished,
    passShare: row.pass_share,
    meanScore: row.mean_score,
    worstMeasure: lowestMark(marksOf.get(row.drill_id) ?? []),
  }));
}

function lowestMark(marks: readonly DrillMark[]): { measureId: string; mark: number } | null {
  const lowest = marks.toSorted((a, b) => a.recent - b.recent)[0];
  return lowest ? { measureId: lowest.measure_id, mark: lowest.recent } : null;
}

async function curves(db: RecordsDatabase, groupId: string | null): Promise<ClassView['curves']> {
  const rows = await db
    .selectFrom('practice_weeks')
    .select(['technique', 'week'])
    .select((one) => [
      one.fn.sum<number>('runs').as('runs'),
      sql<number>`sum(score_sum) / sum(runs)`.as('mean_score'),
      sql<number>`1.0 * sum(passes) / sum(runs)`.as('pass_share'),
    ])
    .where(ofClass(groupId, 'person_id'))
    .groupBy(['technique', 'week'])
    .orderBy('technique')
    .orderBy('week')
    .execute();
  return [...Map.groupBy(rows, (row) => row.technique)].map(([technique, weeks]) => ({
    technique,
    weeks: weeks.map((row) => ({ week: row.week, runs: row.runs, meanScore: row.mean_score, passShare: row.pass_share })),
  }));
}
