import { randomUUID } from 'node:crypto';
import { scoreAfterOverruling } from '../../sim-core/index.ts';
import type { ModerationSet, ParsedRequest, Person, Reply } from '../contract.ts';
import { compareAssessors, type Judgement } from './agreement/compare-assessors.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import { mustFitMarks, ownMarks } from './overruled-marks.ts';
import { marksAfterOverruling } from './papers/verdict.ts';
import type { People } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import type { RunShelf } from './run-shelf.ts';

export interface Moderation {
  make(request: ParsedRequest<'makeModerationSet'>, by: Person): Promise<ModerationSet>;
  /** Of an assessor those they judge in, else all. */
  list(by: Person): Promise<ModerationSet[]>;
  /** @throws HostError 'forbidden' (not in the set), 'conflict' (judged already) */
  judge(request: ParsedRequest<'judgeBlind'>, by: Person): Promise<Reply<'judgeBlind'>>;
  get(setId: string, by: Person): Promise<Reply<'getModerationSet'>>;
  /** Runs of which somebody must not learn what others said, because they are in a set that is not through. */
  blindRuns(personId: string): Promise<ReadonlySet<string>>;
  /** Sets that are not through. */
  openSets(): Promise<ReadonlySet<string>>;
}

export interface ModerationNeeds {
  db: RecordsDatabase;
  people: People;
  shelf: RunShelf;
  ledger: Ledger;
}

/** Sets of runs that two assessors judge without knowing of each other's judgement. */
export function createModeration({ db, people, shelf, ledger }: ModerationNeeds): Moderation {
  async function read(where: { setId?: string; personId?: string }): Promise<ModerationSet[]> {
    let rows = db.selectFrom('moderation_sets').selectAll().orderBy('created_at', 'desc').orderBy('id');
    const { setId, personId } = where;
    if (setId !== undefined) rows = rows.where('id', '=', setId);
    if (personId !== undefined)
      rows = rows.where((one) => one.or([one('first_id', '=', personId), one('second_id', '=', personId)]));
    const names = new Map((await people.list()).people.map((person) => [person.id, person.name]));
    const count = async (table: 'moderation_runs' | 'moderation_judgements', set: string, judge?: string) => {
      let counted = db
        .selectFrom(table)
        .select((one) => one.fn.countAll<number>().as('rows'))
        .where('set_id', '=', set);
      if (judge !== undefined) counted = counted.where('person_id' as never, '=', judge as never);
      return Number((await counted.executeTakeFirstOrThrow()).rows);
    };
    const judge = async (set: string, id: string) => ({
      personId: id,
      name: names.get(id) ?? id,
      judged: await count('moderation_judgements', set, id),
    });
    const sets: ModerationSet[] = [];
    for (const row of await rows.execute()) {
      sets.push({
        id: row.id,
        title: row.title,
        createdAt: row.created_at,
        first: await judge(row.id, row.first_id),
        second: await judge(row.id, row.second_id),
        runs: await count('moderation_runs', row.id),
      });
    }
    return sets;
  }

  async function one(setId: string): Promise<ModerationSet> {
    const [set] = await read({ setId });
    if (!set) throw new HostError('not-found', `There is no moderation set ${setId} in these records.`);
    return set;
  }

  async function judgements(setId: string, personId: string): Promise<Judgement[]> {
    const rows = await db
      .selectFrom('moderation_judgements')
      .select('judgement')
      .where('set_id', '=', setId)
      .where('person_id', '=', personId)
      .execute();
    return rows.map((row) => JSON.parse(row.judgement) as Judgement);
  }

  /** Who has judged each run, without what they said. */
  async function judgesByRun(setId: string): Promise<Map<string, string[]>> {
    const rows = await db
      .selectFrom('moderation_judgements')
      .select(['run_id', 'person_id'])
      .where('set_id', '=', setId)
      .execute();
    const byRun = Map.groupBy(rows, (row) => row.run_id);
    return new Map([...byRun].map(([runId, said]) => [runId, said.map((row) => row.person_id)]));
  }

  async function runsOf(setId: string): Promise<string[]> {
    const rows = await db
      .selectFrom('moderation_runs')
      .select('run_id')
      .where('set_id', '=', setId)
      .orderBy('position')
      .execute();
    return rows.map((row) => row.run_id);
  }

  return {
    async make({ title, runIds, firstId, secondId }, by) {
      if (firstId === secondId) throw new HostError('conflict', 'A moderation set needs two different assessors.');
      for (const id of [firstId, secondId]) {
        const person = await people.get(id);
        if (person.role !== 'assessor') throw new HostError('conflict', `${person.name} is no assessor.`);
      }
      const runs = [...new Set(runIds)];
      for (const id of runs) {
        const run = await shelf.summary(id);
        if (run.state !== 'finished' || run.score === null)
          throw new HostError('conflict', `The run ${id} is not finished and cannot be judged.`);
      }
      const id = randomUUID();
      await db.transaction().execute(async (step) => {
        const set = {
          id,
          title,
          created_by: by.id,
          created_at: new Date().toISOString(),
          first_id: firstId,
          second_id: secondId,
        };
        await step.insertInto('moderation_sets').values(set).execute();
        await step
          .insertInto('moderation_runs')
          .values(runs.map((run_id, position) => ({ set_id: id, run_id, position })))
          .execute();
        const body = { change: 'made', title, runIds: runs, firstId, secondId };
        await ledger.add(step, { who: by.id, kind: 'moderation', subject: id, body });
      });
      await ledger.settle();
      return await one(id);
    },
    list: (by) => read(by.role === 'assessor' ? { personId: by.id } : {}),
    async judge({ setId, runId, decision, reasons, overruled }, by) {
      const set = await one(setId);
      mustBeIn(set, by);
      if (!(await runsOf(setId)).includes(runId)) throw new HostError('not-found', 'This run is not in the set.');
      const { scoreRecord } = await shelf.get(runId);
      if (!scoreRecord) throw new HostError('conflict', 'This run has no marks to judge.');
      mustFitMarks(scoreRecord, overruled);
      const judgement: Judgement = {
        runId,
        decision,
        score: scoreAfterOverruling(scoreRecord, overruled),
        marks: marksAfterOverruling({ marks: ownMarks(scoreRecord), overruled }),
      };
      await db.transaction().execute(async (step) => {
        const known = await step
          .selectFrom('moderation_judgements')
          .select('at')
          .where('set_id', '=', setId)
          .where('run_id', '=', runId)
          .where('person_id', '=', by.id)
          .executeTakeFirst();
        if (known) throw new HostError('conflict', 'You judged this run already; a blind judgement is not taken back.');
        const text = JSON.stringify(judgement);
        const row = { set_id: setId, run_id: runId, person_id: by.id, at: new Date().toISOString(), judgement: text };
        await step.insertInto('moderation_judgements').values(row).execute();
        const body = { change: 'judged', runId, decision, reasons, overruled };
        await ledger.add(step, { who: by.id, kind: 'moderation', subject: setId, body });
      });
      await ledger.settle();
      return { judged: (await judgements(setId, by.id)).length, runs: set.runs };
    },
    async get(setId, by) {
      const set = await one(setId);
      if (by.role === 'assessor') mustBeIn(set, by);
      const judges = set.first.personId === by.id || set.second.personId === by.id;
      const judgedBy = judges ? null : await judgesByRun(setId);
      const own = new Map((await judgements(setId, by.id)).map((judgement) => [judgement.runId, judgement]));
      const runs = [];
      for (const runId of await runsOf(setId)) {
        const { drillTitle } = await shelf.summary(runId);
        const said = own.get(runId);
        runs.push({
          runId,
          drillTitle,
          own: said ? { decision: said.decision, score: said.score } : null,
          judgedBy: judgedBy && (judgedBy.get(runId) ?? []),
        });
      }
      const comparison = isThrough(set)
        ? compareAssessors(await judgements(setId, set.first.personId), await judgements(setId, set.second.personId))
        : null;
      return { set, runs, comparison };
    },
    async blindRuns(personId) {
      const open = (await read({ personId })).filter((set) => !isThrough(set));
      const runs = await Promise.all(open.map((set) => runsOf(set.id)));
      return new Set(runs.flat());
    },
    openSets: async () => new Set((await read({})).filter((set) => !isThrough(set)).map((set) => set.id)),
  };
}

/** Whether both have judged every run of a set. */
function isThrough({ first, second, runs }: ModerationSet): boolean {
  return first.judged === runs && second.judged === runs;
}

function mustBeIn(set: ModerationSet, person: Person): void {
  if (set.first.personId !== person.id && set.second.personId !== person.id)
    throw new HostError('forbidden', `The moderation set "${set.title}" is judged by ${set.first.name} and ${set.second.name}.`);
}
