import type { ReadRunFile } from '../../sim-core/index.ts';
import type { ParsedRequest, Reply, TakenDrill } from '../contract.ts';
import type { CoreWorkers } from './core-workers.ts';
import type { DrillShelf } from './drill-shelf.ts';
import { readDrillText } from './drill-text.ts';
import type { Drills } from './drills.ts';
import { freeDrillId } from './free-drill-id.ts';
import { HostError } from './host-error.ts';
import { putOnShelf } from './keep-drill-version.ts';
import type { Ledger } from './ledger.ts';
import type { PaperJobWatch } from './paper-desk-jobs.ts';
import { mustGoOn } from './papers/copy-bytes.ts';
import { type DrillPack, type DrillToPack, encodePack, type PackedDrill } from './papers/drill-pack.ts';
import { type PackStep, planPackImport, previewPack, type ShelvedDrill } from './papers/preview-pack.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { type RunExchange, runFileText } from './run-exchange.ts';
import type { RunShelf } from './run-shelf.ts';
import { shelvedHashes } from './shelved-drills.ts';
import type { ShippedDrills } from './shipped-drills.ts';
import { impossibleSentence, type WhyImpossible } from './why-impossible.ts';

/** A demonstration that was read, or why it could not be. */
type ReadDemonstration = { run: ReadRunFile } | { reason: string };

export interface PackDesk {
  /** @throws HostError 'not-found', 'bad-request', 'too-large' */
  text(request: ParsedRequest<'exportPack'>): Promise<string>;
  /** @throws HostError 'bad-file', 'newer-version', 'too-large' */
  preview(text: string): Promise<Reply<'previewPack'>>;
  /**
   * Takes what is chosen, all or nothing: whatever takes long comes before the first of it is written.
   * @throws HostError as `preview`, 'bad-request' where a choice is not one of its row's, 'conflict' (stopped)
   */
  import(request: ParsedRequest<'importPack'>, by: string, watch: PaperJobWatch): Promise<TakenDrill[]>;
}

export interface PackDeskNeeds {
  db: RecordsDatabase;
  shipped: ShippedDrills;
  drills: Drills;
  drillShelf: DrillShelf;
  shelf: RunShelf;
  exchange: RunExchange;
  ledger: Ledger;
  core: CoreWorkers;
  whyImpossible: WhyImpossible;
}

/** Drills out to packs and in from them. */
export function createPackDesk(needs: PackDeskNeeds): PackDesk {
  const { db, shipped, drills, drillShelf, shelf, exchange, ledger, core, whyImpossible } = needs;

  async function toPack(id: string): Promise<DrillToPack> {
    const { drill, text } = await drills.get({ id }, false);
    const earlier = await db
      .selectFrom('drill_versions')
      .select('hash')
      .where('drill_id', '=', id)
      .where('source', '=', 'own')
      .where('hash', '!=', drill.hash)
      .orderBy('added_at', 'desc')
      .execute();
    const { runId } = await drillShelf.demonstration(drill.hash);
    const demonstration = runId === null ? null : runFileText(await shelf.get(runId));
    return { text, earlier: drill.source === 'own' ? earlier.map((row) => row.hash) : [], demonstration };
  }

  /** Reads a pack. A drill that cannot be cut is as wrong as one that cannot be read; one that is on the shelf was asked about before. */
  async function read(text: string, signal?: AbortSignal): Promise<DrillPack> {
    const pack = await core.run('readPack', text, { signal });
    const here = new Set((await shelvedDrills(db, shipped)).map(({ hash }) => hash));
    const orWrong = async (packed: PackedDrill): Promise<PackedDrill> => {
      if (!packed.ok || here.has(packed.read.hash)) return packed;
      const reason = impossibleSentence(packed.read, await whyImpossible(packed.read, { signal }));
      return reason === null ? packed : { ok: false, name: packed.read.drill.id, reason };
    };
    const drills: PackedDrill[] = [];
    for (const packed of pack.drills) drills.push(await orWrong(packed));
    return { ...pack, drills };
  }

  /** Writes the drill of a step. What it was called in the pack and is called here may differ. */
  async function take(step: RecordsDatabase, { choice, id, text }: PackStep): Promise<TakenDrill> {
    const here = choice === 'keep-both' ? await freeDrillId(step, shipped, id) : id;
    const read = readDrillText(
      here === id ? text : `${JSON.stringify({ ...(JSON.parse(text) as object), id: here }, null, 2)}\n`,
    );
    await putOnShelf(step, read);
    return { choice, packId: id, id: here, hash: read.hash, demonstration: 'left-out', reason: null };
  }

  /** Reads what shows how the drills are cut. One that cannot be read is kept as its reason, and holds nothing up. */
  async function readDemonstrations(steps: readonly PackStep[], watch: PaperJobWatch): Promise<Map<string, ReadDemonstration>> {
    const read = new Map<string, ReadDemonstration>();
    watch.onProgress(0, steps.length);
    for (const [index, { demonstration }] of steps.entries()) {
      mustGoOn(watch);
      if (demonstration !== null) read.set(demonstration, await readDemonstration(demonstration, watch.signal));
      watch.onProgress(index + 1, steps.length);
    }
    return read;
  }

  async function readDemonstration(text: string, signal: AbortSignal): Promise<ReadDemonstration> {
    try {
      return { run: await exchange.read(text, { signal }) };
    } catch (error) {
      if (error instanceof HostError && error.code !== 'conflict' && error.code !== 'internal') return { reason: error.message };
      throw error;
    }
  }

  /** The drill is here already: a demonstration that cannot be kept is told of and undoes nothing. */
  async function demonstrate(taken: TakenDrill, read: ReadDemonstration | undefined, by: string): Promise<TakenDrill> {
    if (read === undefined) return taken;
    if ((await drillShelf.demonstration(taken.hash)).runId !== null) return { ...taken, demonstration: 'kept' };
    if ('reason' in read) return { ...taken, demonstration: 'wrong', reason: read.reason };
    try {
      const { run } = await exchange.keep(read.run, by);
      await drillShelf.keepDemonstration({ hash: taken.hash, runId: run.id });
      return { ...taken, demonstration: 'kept' };
    } catch (error) {
      if (error instanceof HostError) return { ...taken, demonstration: 'wrong', reason: error.message };
      throw error;
    }
  }

  return {
    async text({ title, about, drillIds }) {
      const packed: DrillToPack[] = [];
      for (const id of drillIds) packed.push(await toPack(id));
      return encodePack({ title, about, madeAt: new Date().toISOString() }, packed);
    },
    preview: async (text) => previewPack(await read(text), await shelvedDrills(db, shipped)),
    async import({ text, choices }, by, watch) {
      const pack = await read(text, watch.signal);
      const planned = planPackImport(pack, await shelvedDrills(db, shipped), choices);
      const demonstrations = await readDemonstrations(planned, watch);
      mustGoOn(watch);
      const { steps, taken } = await db.transaction().execute(async (step) => {
        // Looked at again inside: the shelf may have changed since.
        const steps = planPackImport(pack, await shelvedDrills(step, shipped), choices);
        const taken: TakenDrill[] = [];
        for (const one of steps) taken.push(await take(step, one));
        const drills = taken.map(({ choice, packId, id, hash }) => ({ choice, packId, id, hash }));
        if (taken.length > 0) await ledger.add(step, { who: by, kind: 'import', subject: 'drill-pack', body: { drills } });
        return { steps, taken };
      });
      await ledger.settle();
      const shown: TakenDrill[] = [];
      for (const [index, one] of taken.entries())
        shown.push(await demonstrate(one, demonstrations.get(steps[index]?.demonstration ?? ''), by));
      return shown;
    },
  };
}

async function shelvedDrills(db: RecordsDatabase, shipped: ShippedDrills): Promise<ShelvedDrill[]> {
  const shelved = await shelvedHashes(db, true);
  const hashes = [...shelved.values()].map(({ hash }) => hash);
  const own = await db.selectFrom('drill_versions').select(['drill_id', 'hash', 'title']).where('hash', 'in', hashes).execute();
  const versions = await db.selectFrom('drill_versions').select(['drill_id', 'hash']).where('source', '=', 'own').execute();
  const hashesOf = Map.groupBy(versions, (row) => row.drill_id);
  return [
    ...[...shipped.byId.values()].map(({ drill, hash }): ShelvedDrill => {
      return { id: drill.id, hash, title: drill.title, source: 'shipped', versions: [hash] };
    }),
    ...own.map(({ drill_id, hash, title }): ShelvedDrill => {
      return { id: drill_id, hash, title, source: 'own', versions: (hashesOf.get(drill_id) ?? []).map((row) => row.hash) };
    }),
  ];
}
