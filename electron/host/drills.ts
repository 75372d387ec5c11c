import type { DrillSummary, ParsedRequest, Reply } from '../contract.ts';
import { type DrillText, drillSummary, readDrillText } from './drill-text.ts';
import { freeDrillId } from './free-drill-id.ts';
import { HostError } from './host-error.ts';
import { keepDrillVersion, putOnShelf } from './keep-drill-version.ts';
import type { Ledger } from './ledger.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import type { ShippedDrills } from './shipped-drills.ts';
import type { WhyImpossible } from './why-impossible.ts';

type DrillRow = RecordsTables['drill_versions'];

export interface Drills {
  list(): Promise<{ drills: DrillSummary[] }>;
  get(request: ParsedRequest<'getDrill'>): Promise<Reply<'getDrill'>>;
  /**
   * `who` signs the entry in the ledger; null = nobody was signed in.
   * @throws HostError 'bad-file' (unreadable, or not to be cut), 'newer-version', 'conflict'
   */
  import(request: ParsedRequest<'importDrill'>, who: string | null): Promise<Reply<'importDrill'>>;
  /** Keeps the version of a drill that a run is about to refer to: `hash`, or the current one. @throws HostError 'not-found' */
  keepForRun(id: string, hash: string | undefined): Promise<{ hash: string; text: string }>;
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
  const ownRow = (id: string) =>
    db
      .selectFrom('own_drills')
      .innerJoin('drill_versions', 'drill_versions.hash', 'own_drills.hash')
      .selectAll('drill_versions')
      .where('own_drills.drill_id', '=', id)
      .executeTakeFirst();

  async function current(id: string): Promise<{ drill: DrillSummary; text: string }> {
    const fromFile = shipped.byId.get(id);
    if (fromFile) return { drill: drillSummary(fromFile, 'shipped'), text: fromFile.text };
    const row = await ownRow(id);
    if (!row) throw new HostError('not-found', `There is no drill ${id} on this shelf.`);
    return { drill: summaryOfRow(row, 'own'), text: row.text };
  }

  async function byHash(hash: string): Promise<{ drill: DrillSummary; text: string }> {
    for (const read of shipped.byId.values())
      if (read.hash === hash) return { drill: drillSummary(read, 'shipped'), text: read.text };
    const row = await db.selectFrom('drill_versions').selectAll().where('hash', '=', hash).executeTakeFirst();
    if (!row) throw new HostError('not-found', `There is no drill version ${hash.slice(0, 12)} in these records.`);
    return { drill: summaryOfRow(row, row.source as DrillSummary['source']), text: row.text };
  }

  /** The same check as the builder's before it saves: a drill that cannot be cut comes onto no shelf. */
  async function shelve(read: DrillText, replaces: string | null, who: string | null): Promise<DrillSummary> {
    const { id, title } = read.drill;
    const [first, ...more] = await whyImpossible(read);
    if (first) {
      const rest = more.length > 0 ? ` (and ${more.length} more ${more.length === 1 ? 'problem' : 'problems'})` : '';
      throw new HostError(
        'bad-file',
        `The drill "${title}" cannot be cut as it stands. At ${first.path}: ${first.sentence}${rest}`,
      );
    }
    await db.transaction().execute(async (step) => {
      // Looked at again here: another page may have saved while the core was at work.
      const current = await step.selectFrom('own_drills').select('hash').where('drill_id', '=', id).executeTakeFirst();
      if ((current?.hash ?? null) !== replaces)
        throw new HostError('conflict', `The drill "${title}" was changed by somebody else meanwhile; nothing was overwritten.`);
      await putOnShelf(step, read);
      await ledger.add(step, { who, kind: 'drill-saved', subject: id, body: { hash: read.hash, replaces, title, from: 'file' } });
    });
    await ledger.settle();
    return drillSummary(read, 'own');
  }

  return {
    async list() {
      const rows = await db
        .selectFrom('own_drills')
        .innerJoin('drill_versions', 'drill_versions.hash', 'own_drills.hash')
        .selectAll('drill_versions')
        .orderBy('own_drills.drill_id')
        .execute();
      const own = rows.map((row) => summaryOfRow(row, 'own'));
      return { drills: [...[...shipped.byId.values()].map((read) => drillSummary(read, 'shipped')), ...own] };
    },
    get: (request) => ('id' in request ? current(request.id) : byHash(request.hash)),
    async import({ text, onConflict }, who) {
      const read = readDrillText(text);
      const { id, title } = read.drill;
      const fromFile = shipped.byId.get(id);
      if (fromFile?.hash === read.hash) return { drill: drillSummary(fromFile, 'shipped'), outcome: 'same' };
      const row = fromFile ? undefined : await ownRow(id);
      if (row?.hash === read.hash) return { drill: summaryOfRow(row, 'own'), outcome: 'same' };
      if (!fromFile && !row) return { drill: await shelve(read, null, who), outcome: 'added' };
      if (onConflict === 'keep-both') {
        const renamed = { ...(JSON.parse(text) as object), id: await freeDrillId(db, shipped, id) };
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
    async keepForRun(id, hash) {
      const { drill, text } = hash === undefined ? await current(id) : await byHash(hash);
      if (drill.id !== id)
        throw new HostError('bad-request', `The drill version ${drill.hash.slice(0, 12)} is of ${drill.id}, not of ${id}.`);
      if (drill.source === 'shipped') await keepDrillVersion(db, readDrillText(text), 'shipped');
      return { hash: drill.hash, text };
    },
    keepFromRun: (read) => keepDrillVersion(db, read, 'run-file'),
  };
}

function summaryOfRow(row: DrillRow, source: DrillSummary['source']): DrillSummary {
  return {
    id: row.drill_id,
    hash: row.hash,
    source,
    title: row.title,
    technique: row.technique,
    material: row.material as DrillSummary['material'],
    thicknessMm: row.thickness_mm,
  };
}
