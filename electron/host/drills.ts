import type { DrillSummary, ParsedRequest, Reply } from '../contract.ts';
import { type DrillText, drillSummary, readDrillText } from './drill-text.ts';
import { freeDrillId } from './free-drill-id.ts';
import { HostError } from './host-error.ts';
import { keepDrillVersion, putOnShelf } from './keep-drill-version.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import { isDraft, shelvedHash, shelvedHashes } from './shelved-drills.ts';
import type { ShippedDrills } from './shipped-drills.ts';
import { impossibleSentence, type WhyImpossible } from './why-impossible.ts';

type DrillRow = RecordsTables['drill_versions'];

export interface Drills {
  /** @param withDrafts whether versions that are only there to be tried are for the caller, here and below */
  list(withDrafts: boolean): Promise<{ drills: DrillSummary[] }>;
  /** @throws HostError 'not-found' */
  get(request: ParsedRequest<'getDrill'>, withDrafts: boolean): Promise<Reply<'getDrill'>>;
  /**
   * `who` signs the entry in the ledger; null = nobody was signed in.
   * @throws HostError 'bad-file' (unreadable, or not to be cut), 'newer-version', 'conflict'
   */
  import(request: ParsedRequest<'importDrill'>, who: string | null): Promise<Reply<'importDrill'>>;
  /** Keeps the version of a drill that a run is about to refer to: `hash`, or the current one. @throws HostError 'not-found' */
  keepForRun(id: string, hash: string | undefined, withDrafts: boolean): Promise<{ hash: string; text: string }>;
  /** Keeps a version that came with a run file, without putting it on the shelf. */
  keepFromRun(read: DrillText): Promise<void>;
}

export interface DrillsNeeds {
  db: RecordsDatabase;
  shipped: ShippedDrills;
  ledger: Ledger;
  whyImpossible: WhyImpossible;
}

/** The shelf: shipped drills from their files, own ones from the records, and every version that a run ever referred to. */
export function createDrills({ db, shipped, ledger, whyImpossible }: DrillsNeeds): Drills {
  async function ownRow(id: string, withDrafts: boolean): Promise<{ row: DrillRow; draft: boolean } | null> {
    const shelved = await shelvedHash(db, id, withDrafts);
    if (!shelved) return null;
    const row = await db.selectFrom('drill_versions').selectAll().where('hash', '=', shelved.hash).executeTakeFirstOrThrow();
    return { row, draft: shelved.draft };
  }

  async function current(id: string, withDrafts: boolean): Promise<{ drill: DrillSummary; text: string }> {
    const fromFile = shipped.byId.get(id);
    if (fromFile) return { drill: drillSummary(fromFile, 'shipped'), text: fromFile.text };
    const own = await ownRow(id, withDrafts);
    if (!own) throw new HostError('not-found', `There is no drill ${id} on this shelf.`);
    return { drill: summaryOfRow(own.row, 'own', own.draft), text: own.row.text };
  }

  async function byHash(hash: string, withDrafts: boolean): Promise<{ drill: DrillSummary; text: string }> {
    for (const read of shipped.byId.values())
      if (read.hash === hash) return { drill: drillSummary(read, 'shipped'), text: read.text };
    const row = await db.selectFrom('drill_versions').selectAll().where('hash', '=', hash).executeTakeFirst();
    const draft = row !== undefined && (await isDraft(db, hash));
    if (!row || (draft && !withDrafts))
      throw new HostError('not-found', `There is no drill version ${hash.slice(0, 12)} in these records.`);
    return { drill: summaryOfRow(row, row.source as DrillSummary['source'], draft), text: row.text };
  }

  /** The same check as the builder's before it saves, and a pack's: a drill that cannot be cut comes onto no shelf. */
  async function shelve(read: DrillText, replaces: string | null, who: string | null): Promise<DrillSummary> {
    const { id, title } = read.drill;
    const reason = impossibleSentence(read, await whyImpossible(read));
    if (reason !== null) throw new HostError('bad-file', reason);
    await db.transaction().execute(async (step) => {
      // Looked at again here: another page may have saved while the core was at work.
      const current = await shelvedHash(step, id, true);
      if ((current?.hash ?? null) !== replaces)
        throw new HostError('conflict', `The drill "${title}" was changed by somebody else meanwhile; nothing was overwritten.`);
      await putOnShelf(step, read);
      await ledger.add(step, { who, kind: 'drill-saved', subject: id, body: { hash: read.hash, replaces, title, from: 'file' } });
    });
    await ledger.settle();
    return drillSummary(read, 'own');
  }

  return {
    async list(withDrafts) {
      const shelved = await shelvedHashes(db, withDrafts);
      const hashes = [...shelved.values()].map(({ hash }) => hash);
      const rows = await db.selectFrom('drill_versions').selectAll().where('hash', 'in', hashes).orderBy('drill_id').execute();
      const own = rows.map((row) => summaryOfRow(row, 'own', shelved.get(row.drill_id)?.draft ?? false));
      return { drills: [...[...shipped.byId.values()].map((read) => drillSummary(read, 'shipped')), ...own] };
    },
    get: (request, withDrafts) => ('id' in request ? current(request.id, withDrafts) : byHash(request.hash, withDrafts)),
    async import({ text, onConflict }, who) {
      const read = readDrillText(text);
      const { id, title } = read.drill;
      const fromFile = shipped.byId.get(id);
      if (fromFile?.hash === read.hash) return { drill: drillSummary(fromFile, 'shipped'), outcome: 'same' };
      // A draft of this id is as much in the way as a drill for everybody.
      const here = fromFile ? null : await ownRow(id, true);
      const row = here?.row;
      if (row?.hash === read.hash) return { drill: summaryOfRow(row, 'own', here?.draft ?? false), outcome: 'same' };
      if (!fromFile && !row) return { drill: await shelve(read, null, who), outcome: 'added' };
      if (onConflict === 'keep-both') {
        const renamed = { ...(JSON.parse(read.text) as object), id: await freeDrillId(db, shipped, id) };
        return { drill: await shelve(readDrillText(`${JSON.stringify(renamed, null, 2)}\n`), null, who), outcome: 'renamed' };
      }
      if (onConflict === 'replace' && row) return { drill: await shelve(read, row.hash, who), outcome: 'replaced' };
      throw new HostError(
        'conflict',
        fromFile
          ? `The id ${id} of "${title}" belongs to a drill that comes with Kerfhand, which is never replaced; keep both or give it another id.`
          : `There is a different drill with the id ${id} of "${title}" already; replace it, keep both, or leave it.`,
      );
    },
    async keepForRun(id, hash, withDrafts) {
      const { drill, text } = hash === undefined ? await current(id, withDrafts) : await byHash(hash, withDrafts);
      if (drill.id !== id)
        throw new HostError('bad-request', `The drill version ${drill.hash.slice(0, 12)} is of ${drill.id}, not of ${id}.`);
      if (drill.source === 'shipped') await keepDrillVersion(db, readDrillText(text), 'shipped');
      return { hash: drill.hash, text };
    },
    keepFromRun: (read) => keepDrillVersion(db, read, 'run-file'),
  };
}

function summaryOfRow(row: DrillRow, source: DrillSummary['source'], draft: boolean): DrillSummary {
  return {
    id: row.drill_id,
    hash: row.hash,
    source,
    draft,
    title: row.title,
    technique: row.technique,
    material: row.material as DrillSummary['material'],
    thicknessMm: row.thickness_mm,
  };
}
