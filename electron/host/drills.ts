import type { DrillSummary, ParsedRequest, Reply } from '../contract.ts';
import { type DrillText, drillSummary, readDrillText } from './drill-text.ts';
import { freeDrillId } from './free-drill-id.ts';
import { HostError } from './host-error.ts';
import { keepDrillVersion, putOnShelf } from './keep-drill-version.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import type { ShippedDrills } from './shipped-drills.ts';

type DrillRow = RecordsTables['drill_versions'];

export interface Drills {
  list(): Promise<{ drills: DrillSummary[] }>;
  get(request: ParsedRequest<'getDrill'>): Promise<Reply<'getDrill'>>;
  import(request: ParsedRequest<'importDrill'>): Promise<Reply<'importDrill'>>;
  /** Keeps the version of a drill that a run is about to refer to: `hash`, or the current one. @throws HostError 'not-found' */
  keepForRun(id: string, hash: string | undefined): Promise<{ hash: string; text: string }>;
  /** Keeps a version that came with a run file, without putting it on the shelf. */
  keepFromRun(read: DrillText): Promise<void>;
}

/** The shelf: shipped drills from their files, own ones from the records, and every version that a run ever referred to. */
export function createDrills(db: RecordsDatabase, shipped: ShippedDrills): Drills {
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

  async function shelve(read: DrillText): Promise<DrillSummary> {
    await db.transaction().execute((step) => putOnShelf(step, read));
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
    async import({ text, onConflict }) {
      const read = readDrillText(text);
      const { id, title } = read.drill;
      const fromFile = shipped.byId.get(id);
      if (fromFile?.hash === read.hash) return { drill: drillSummary(fromFile, 'shipped'), outcome: 'same' };
      const row = fromFile ? undefined : await ownRow(id);
      if (row?.hash === read.hash) return { drill: summaryOfRow(row, 'own'), outcome: 'same' };
      if (!fromFile && !row) return { drill: await shelve(read), outcome: 'added' };
      if (onConflict === 'keep-both') {
        const renamed = { ...(JSON.parse(text) as object), id: await freeDrillId(db, shipped, id) };
        return { drill: await shelve(readDrillText(`${JSON.stringify(renamed, null, 2)}\n`)), outcome: 'renamed' };
      }
      if (onConflict === 'replace' && row) return { drill: await shelve(read), outcome: 'replaced' };
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
