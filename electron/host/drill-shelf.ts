import type { ParsedRequest, Reply } from '../contract.ts';
import { type DrillText, readDrillText } from './drill-text.ts';
import { HostError } from './host-error.ts';
import { keepDraft, putOnShelf } from './keep-drill-version.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { shelvedHash } from './shelved-drills.ts';
import type { ShippedDrills } from './shipped-drills.ts';
import type { WhyImpossible } from './why-impossible.ts';

export interface DrillShelf {
  /** Newest first. @throws HostError 'not-found' */
  versions(id: string): Promise<Reply<'listDrillVersions'>>;
  /** `who` signs the entry in the ledger; null = nobody was signed in. @throws HostError 'bad-file', 'newer-version', 'conflict' */
  save(request: ParsedRequest<'saveDrill'>, who: string | null): Promise<Reply<'saveDrill'>>;
  demonstration(hash: string): Promise<Reply<'getDemonstration'>>;
  /** Whether a run was made to be looked at by everybody. */
  isDemonstration(runId: string): Promise<boolean>;
  /** @throws HostError 'not-found', 'conflict' */
  keepDemonstration(request: ParsedRequest<'keepDemonstration'>): Promise<Reply<'keepDemonstration'>>;
}

export interface DrillShelfNeeds {
  db: RecordsDatabase;
  shipped: ShippedDrills;
  ledger: Ledger;
  whyImpossible: WhyImpossible;
}

/** Versions of drills: what the builder saves, and the run that shows how each is cut. Nothing that was saved is ever changed. */
export function createDrillShelf({ db, shipped, ledger, whyImpossible }: DrillShelfNeeds): DrillShelf {
  const currentHash = async (step: RecordsDatabase, id: string) => (await shelvedHash(step, id, true))?.hash ?? null;

  async function versions(id: string): Promise<Reply<'listDrillVersions'>> {
    const fromFile = shipped.byId.get(id);
    const current = fromFile ? fromFile.hash : await currentHash(db, id);
    if (current === null) throw new HostError('not-found', `There is no drill ${id} on this shelf.`);
    const kept = fromFile
      ? [{ hash: fromFile.hash, title: fromFile.drill.title, added_at: null }]
      : await db
          .selectFrom('drill_versions')
          .select(['hash', 'title', 'added_at'])
          .where('drill_id', '=', id)
          .where('source', '=', 'own')
          .orderBy('added_at')
          .orderBy('hash')
          .execute();
    const hashes = kept.map((version) => version.hash);
    const runs = await db
      .selectFrom('runs')
      .select('drill_hash')
      .select((one) => one.fn.countAll<number>().as('count'))
      .where('drill_hash', 'in', hashes)
      .groupBy('drill_hash')
      .execute();
    const shown = await db.selectFrom('drill_demonstrations').selectAll().where('drill_hash', 'in', hashes).execute();
    const list = kept.map((version, index) => ({
      hash: version.hash,
      number: index + 1,
      title: version.title,
      savedAt: version.added_at,
      current: version.hash === current,
      runs: Number(runs.find((row) => row.drill_hash === version.hash)?.count ?? 0),
      demonstrationRunId: shown.find((row) => row.drill_hash === version.hash)?.run_id ?? null,
    }));
    return { versions: list.toReversed() };
  }

  async function answer(read: DrillText, outcome: 'saved' | 'same'): Promise<Reply<'saveDrill'>> {
    const { id } = read.drill;
    const number = (await versions(id)).versions.find((version) => version.hash === read.hash)?.number ?? 1;
    return { outcome, id, hash: read.hash, number };
  }

  return {
    versions,
    async save({ text, replaces, draft }, who) {
      const read = readDrillText(text);
      const { id, title } = read.drill;
      if (shipped.byId.has(id)) {
        throw new HostError(
          'conflict',
          `The id ${id} of "${title}" belongs to a drill that comes with Kerfhand, which is never changed; give yours another id.`,
        );
      }
      const here = await shelvedHash(db, id, true);
      // What is there already as a draft may be kept for everybody; what everybody has becomes no draft.
      if (here?.hash === read.hash && (draft || !here.draft)) return await answer(read, 'same');
      const problems = await whyImpossible(read);
      if (problems.length > 0) return { outcome: 'refused', problems };
      await db.transaction().execute(async (step) => {
        // Looked at again here: another page may have saved while the core was at work.
        const current = await currentHash(step, id);
        if (current !== replaces) {
          throw new HostError(
            'conflict',
            current === null
              ? `There is no drill ${id} that this could be a new version of.`
              : `The drill "${title}" was saved by somebody else meanwhile; nothing was overwritten. Open it again, or give yours another id.`,
          );
        }
        await (draft ? keepDraft(step, read) : putOnShelf(step, read));
        await ledger.add(step, { who, kind: 'drill-saved', subject: id, body: { hash: read.hash, replaces, title, draft } });
      });
      await ledger.settle();
      return await answer(read, 'saved');
    },
    async demonstration(hash) {
      const row = await db.selectFrom('drill_demonstrations').select('run_id').where('drill_hash', '=', hash).executeTakeFirst();
      return { runId: row?.run_id ?? null };
    },
    async isDemonstration(runId) {
      const row = await db.selectFrom('drill_demonstrations').select('run_id').where('run_id', '=', runId).executeTakeFirst();
      return row !== undefined;
    },
    async keepDemonstration({ hash, runId }) {
      if (runId === null) {
        await db.deleteFrom('drill_demonstrations').where('drill_hash', '=', hash).execute();
        return { demonstrationRunId: null };
      }
      const run = await db
        .selectFrom('runs')
        .select(['drill_hash', 'state', 'passed'])
        .where('id', '=', runId)
        .executeTakeFirst();
      if (!run) throw new HostError('not-found', `There is no run ${runId} in these records.`);
      if (run.drill_hash !== hash) {
        throw new HostError('conflict', 'This run was cut under another version of the drill and cannot show this one.');
      }
      if (run.state !== 'finished' || run.passed !== 1) {
        throw new HostError('conflict', 'A demonstration shows how it is done: this run was not finished with a pass.');
      }
      await db
        .insertInto('drill_demonstrations')
        .values({ drill_hash: hash, run_id: runId, kept_at: new Date().toISOString() })
        .onConflict((conflict) => conflict.column('drill_hash').doUpdateSet({ run_id: runId, kept_at: new Date().toISOString() }))
        .execute();
      return { demonstrationRunId: runId };
    },
  };
}
