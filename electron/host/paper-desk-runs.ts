import { setImmediate as otherCalls } from 'node:timers/promises';
import { sql } from 'kysely';
import { sameJson, scoreAfterOverruling, TICK_HZ } from '../../sim-core/index.ts';
import type { RunChoice, ScoreRecord } from '../contract.ts';
import { readDrillText } from './drill-text.ts';
import { HostError } from './host-error.ts';
import { ownMarks } from './overruled-marks.ts';
import { readVerdict } from './papers/check-verdict.ts';
import type { RunForTable, VerdictSignature } from './papers/run-tables.ts';
import { type PublicKey, publicKeyOrNull, signatureFits } from './papers/signing-key.ts';
import { type SignedVerdict, verdictBytes } from './papers/verdict.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { SUMMARY_COLUMNS, summaryOfRow } from './run-shelf.ts';
import { offEntry } from './run-trust.ts';

/** Runs read between two looks at other calls. */
const READ_AT_ONCE = 250;
const MOST_RUNS = 100_000;

export interface PaperRun extends RunForTable {
  verdict: (ReadVerdict & { scoreAfter: number }) | Unreadable | null;
}

type Unreadable = { signature: 'unreadable' };
type ReadVerdict = Exclude<RunForTable['verdict'], Unreadable | null>;

/** Runs that were read at once, and how far that is. */
export interface PaperRunsPart {
  runs: PaperRun[];
  done: number;
  total: number;
}

/**
 * Runs with marks, groups and the verdict that counts, oldest first, some at a time. Other calls are answered between two parts.
 * @param blind runs of which no verdict may be told
 * @throws HostError 'too-large'
 */
export async function* readPaperRuns(
  db: RecordsDatabase,
  choice: RunChoice,
  blind: ReadonlySet<string>,
): AsyncGenerator<PaperRunsPart> {
  const groupsOf = await groupNames(db);
  const ratedAmperes = new Map<string, number>();
  const ids = (
    await matching(db, choice)
      .select('runs.id')
      .limit(MOST_RUNS + 1)
      .execute()
  ).map((row) => row.id);
  if (ids.length > MOST_RUNS)
    throw new HostError('too-large', `These are more than ${MOST_RUNS} runs; choose fewer, by group, person or drill.`);
  for (let from = 0; from < ids.length; from += READ_AT_ONCE) {
    const some = ids.slice(from, from + READ_AT_ONCE);
    const verdicts = await newestVerdicts(
      db,
      some.filter((id) => !blind.has(id)),
    );
    const runs: PaperRun[] = [];
    for (const row of await rowsOf(db, some)) {
      const currentA = chosenCurrentA(row.choices) ?? (await ratedCurrentA(db, row.drill_hash, ratedAmperes));
      runs.push(paperRunOf(row, currentA, groupsOf, verdicts.get(row.id)));
    }
    yield { runs, done: from + some.length, total: ids.length };
    await otherCalls();
  }
}

type PaperRow = Awaited<ReturnType<typeof rowsOf>>[number];

function paperRunOf(
  row: PaperRow,
  currentA: number,
  groupsOf: Awaited<ReturnType<typeof groupNames>>,
  verdict: KeptVerdict | Unreadable | undefined,
): PaperRun {
  const run = summaryOfRow(row);
  const score = row.score_record === null ? null : (JSON.parse(row.score_record) as ScoreRecord);
  return {
    runId: run.id,
    state: run.state,
    person: run.personName,
    groups: groupsOf.get(run.personId ?? '') ?? [],
    drillId: run.drillId,
    drillTitle: run.drillTitle,
    drillHash: run.drillHash,
    technique: row.technique,
    material: row.material,
    thicknessMm: row.thickness_mm,
    currentA,
    seed: run.seed,
    handKind: run.hand.kind,
    handName: run.hand.name,
    speedGuess: row.speed_guess,
    coreVersion: run.coreVersion,
    beganAt: run.beganAt,
    endedAt: run.endedAt,
    durationS: run.tickCount / TICK_HZ,
    score: run.score,
    passed: run.passed,
    measures: (score?.measures ?? []).map(measureOf),
    verdict: verdict === undefined ? null : 'signed' in verdict ? verdictOf(verdict, row, score) : verdict,
  };
}

function chosenCurrentA(choices: string | null): number | null {
  return choices === null ? null : (JSON.parse(choices) as { currentA: number }).currentA;
}

function matching(db: RecordsDatabase, { runIds, personId, groupId, drillId, measureId, handedIn }: RunChoice) {
  let rows = db.selectFrom('runs').innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash');
  if (runIds !== undefined) rows = rows.where('runs.id', 'in', runIds);
  if (personId !== undefined) rows = rows.where('runs.person_id', '=', personId);
  if (drillId !== undefined) rows = rows.where('drill_versions.drill_id', '=', drillId);
  if (measureId !== undefined) rows = rows.where('runs.weakest_measure', '=', measureId);
  if (handedIn !== undefined) rows = rows.where('runs.submitted_at', 'is not', null);
  if (handedIn === 'waiting') rows = rows.where('runs.decided_at', 'is', null);
  if (handedIn === 'decided') rows = rows.where('runs.decided_at', 'is not', null);
  if (groupId !== undefined) {
    rows = rows.where('runs.person_id', 'in', (inner) =>
      inner.selectFrom('group_members').select('group_members.person_id').where('group_id', '=', groupId),
    );
  }
  return rows.orderBy('runs.began_at').orderBy('runs.id');
}

/** What is told of these runs, oldest first. */
function rowsOf(db: RecordsDatabase, runIds: string[]) {
  return db
    .selectFrom('runs')
    .innerJoin('drill_versions', 'drill_versions.hash', 'runs.drill_hash')
    .leftJoin('people', 'people.id', 'runs.person_id')
    .leftJoin('run_contents', 'run_contents.run_id', 'runs.id')
    .select(SUMMARY_COLUMNS)
    .select([
      'drill_versions.technique',
      'drill_versions.material',
      'drill_versions.thickness_mm',
      'runs.choices',
      'runs.speed_guess',
      'runs.final_digest',
    ])
    .select('run_contents.score_record')
    .where('runs.id', 'in', runIds)
    .orderBy('runs.began_at')
    .orderBy('runs.id')
    .execute();
}

async function groupNames(db: RecordsDatabase): Promise<Map<string, string[]>> {
  const rows = await db
    .selectFrom('group_members')
    .innerJoin('groups', 'groups.id', 'group_members.group_id')
    .select(['group_members.person_id', 'groups.name'])
    .orderBy('groups.name')
    .execute();
  const names = new Map<string, string[]>();
  for (const { person_id, name } of rows) names.set(person_id, [...(names.get(person_id) ?? []), name]);
  return names;
}

/** A verdict as the records have it, the key that it names and how its run was handed in by the ledger. */
interface KeptVerdict {
  signed: SignedVerdict;
  /** null where its assessor never had a key of that name here, or it cannot be read. */
  key: PublicKey | null;
  handIn: HandIn | undefined;
}

type HandIn = Parameters<typeof offEntry>[0];

/** Of each run the verdict that counts: the newest, whether it can be read or not. */
async function newestVerdicts(db: RecordsDatabase, runIds: string[]): Promise<Map<string, KeptVerdict | Unreadable>> {
  if (runIds.length === 0) return new Map();
  const rows = await db
    .selectFrom('verdicts')
    .select(['run_id', 'person_id', 'document'])
    .where('run_id', 'in', runIds)
    .orderBy(sql.ref('rowid'))
    .execute();
  const verdicts = new Map<string, KeptVerdict | Unreadable>();
  const newest = [...new Map(rows.map((row) => [row.run_id, row])).values()].flatMap(({ run_id, person_id, document }) => {
    const read = readVerdict(document);
    if (read.ok) return { run_id, person_id, signed: read.verdict };
    verdicts.set(run_id, { signature: 'unreadable' });
    return [];
  });
  // After the verdicts: a first one may come in meanwhile, and its key is there before it.
  const keys = await keysNamed(db, [...new Set(newest.map(({ signed }) => signed.keyId))]);
  const handIns = await newestHandIns(
    db,
    newest.map(({ run_id }) => run_id),
  );
  for (const { run_id, person_id, signed } of newest) {
    const named = keys.get(signed.keyId);
    verdicts.set(run_id, { signed, key: named?.personId === person_id ? named.key : null, handIn: handIns.get(run_id) });
  }
  return verdicts;
}

/** Keys by their name, with whose they are. One that cannot be read, or is not what it is called, stands there as null. */
async function keysNamed(
  db: RecordsDatabase,
  keyIds: string[],
): Promise<Map<string, { personId: string; key: PublicKey | null }>> {
  if (keyIds.length === 0) return new Map();
  const rows = await db
    .selectFrom('signing_keys')
    .select(['fingerprint', 'person_id', 'public_pem'])
    .where('fingerprint', 'in', keyIds)
    .execute();
  return new Map(
    rows.map(({ fingerprint, person_id, public_pem }) => {
      const key = publicKeyOrNull(public_pem);
      return [fingerprint, { personId: person_id, key: key?.keyId === fingerprint ? key : null }];
    }),
  );
}

/** Of each run how it was handed in last, by the ledger. */
async function newestHandIns(db: RecordsDatabase, runIds: string[]): Promise<Map<string, HandIn>> {
  if (runIds.length === 0) return new Map();
  const rows = await db
    .selectFrom('ledger')
    .select(['subject', 'who', 'body'])
    .where('subject', 'in', runIds)
    // The plus keeps SQLite from the index by kind, with which it reads every hand-in of the yard for each part.
    .where(sql<string>`+kind`, '=', 'run-submitted')
    .orderBy('seq')
    .execute();
  return new Map(rows.map(({ subject, who, body }) => [subject, { who, body }]));
}

function verdictOf({ signed, key, handIn }: KeptVerdict, run: PaperRow, score: ScoreRecord | null): PaperRun['verdict'] {
  const { decision, assessor, at, reasons, overruled, score: own } = signed.payload;
  const scoreAfter = score ? scoreAfterOverruling(score, overruled) : own;
  const isOff =
    handIn !== undefined &&
    offEntry(handIn, { personId: run.person_id, finalDigest: run.final_digest, drillHash: run.drill_hash }) !== null;
  const signature = isOff ? 'does-not-fit' : signatureOn(signed, key, run, score);
  return { decision, assessor, at, reasons, overruled, scoreAfter, signature };
}

/** As `checkVerdict` has it, by what a table reads of a run: neither inputs nor trace are looked at. */
function signatureOn(
  { payload, signature }: SignedVerdict,
  key: PublicKey | null,
  run: PaperRow,
  score: ScoreRecord | null,
): VerdictSignature {
  const isAboutRun =
    payload.runId === run.id &&
    payload.drillDigest === run.drill_hash &&
    payload.score === score?.score &&
    sameJson(payload.marks, ownMarks(score));
  return key && isAboutRun && signatureFits(verdictBytes(payload), signature, key.key) ? 'good' : 'does-not-fit';
}

function measureOf(measure: ScoreRecord['measures'][number]): RunForTable['measures'][number] {
  const { id, mark, weight } = measure;
  const mustReach = 'mustReach' in measure && typeof measure.mustReach === 'number' ? measure.mustReach : null;
  return { id, mark, weight, mustReach };
}

/** The current that the drill asks for: where the rig stood ready, it was cut with this. */
async function ratedCurrentA(db: RecordsDatabase, drillHash: string, known: Map<string, number>): Promise<number> {
  let currentA = known.get(drillHash);
  if (currentA === undefined) {
    const { text } = await db.selectFrom('drill_versions').select('text').where('hash', '=', drillHash).executeTakeFirstOrThrow();
    currentA = readDrillText(text).drill.rig.currentA;
    known.set(drillHash, currentA);
  }
  return currentA;
}
