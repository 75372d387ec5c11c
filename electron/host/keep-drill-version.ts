import type { DrillSummary } from '../contract.ts';
import { type DrillText, drillSummary } from './drill-text.ts';
import type { RecordsDatabase } from './records-tables.ts';

/** Keeps a version of a drill under the hash of its content; one that is known stays as it is, but may become an own one. */
export async function keepDrillVersion(db: RecordsDatabase, read: DrillText, source: DrillSummary['source']): Promise<void> {
  const { id, hash, title, technique, material, thicknessMm } = drillSummary(read, source);
  const row = { hash, drill_id: id, source, title, technique, material, thickness_mm: thicknessMm, text: read.text };
  await db
    .insertInto('drill_versions')
    .values({ ...row, added_at: new Date().toISOString() })
    .onConflict((conflict) => {
      const known = conflict.column('hash');
      return source === 'own' ? known.doUpdateSet({ source }) : known.doNothing();
    })
    .execute();
}

/** Keeps a version as the current one of an own drill, for everybody; a draft of it is over. Within a transaction of the caller's. */
export async function putOnShelf(step: RecordsDatabase, read: DrillText): Promise<void> {
  const { drill, hash } = read;
  await keepDrillVersion(step, read, 'own');
  await step.deleteFrom('drill_drafts').where('drill_id', '=', drill.id).execute();
  await step
    .insertInto('own_drills')
    .values({ drill_id: drill.id, hash })
    .onConflict((conflict) => conflict.column('drill_id').doUpdateSet({ hash }))
    .execute();
}

/** Keeps a version to be tried: what is on the shelf stays there for apprentices. Within a transaction of the caller's. */
export async function keepDraft(step: RecordsDatabase, read: DrillText): Promise<void> {
  const { drill, hash } = read;
  await keepDrillVersion(step, read, 'own');
  await step
    .insertInto('drill_drafts')
    .values({ drill_id: drill.id, hash })
    .onConflict((conflict) => conflict.column('drill_id').doUpdateSet({ hash }))
    .execute();
}
