import type { RecordsDatabase } from './records-tables.ts';

/** Which version of an own drill is current. */
export interface Shelved {
  hash: string;
  /** Saved to be tried, not yet kept for everybody. */
  draft: boolean;
}

/** Current versions of all own drills by id; with drafts, a draft stands in front of the version that is kept. */
export async function shelvedHashes(db: RecordsDatabase, withDrafts: boolean): Promise<Map<string, Shelved>> {
  const kept = await db.selectFrom('own_drills').select(['drill_id', 'hash']).orderBy('drill_id').execute();
  const shelved = new Map(kept.map(({ drill_id, hash }) => [drill_id, { hash, draft: false }]));
  if (!withDrafts) return shelved;
  const drafts = await db.selectFrom('drill_drafts').select(['drill_id', 'hash']).orderBy('drill_id').execute();
  for (const { drill_id, hash } of drafts) shelved.set(drill_id, { hash, draft: true });
  return shelved;
}

/** The same of one drill; null where there is none of that id. */
export async function shelvedHash(db: RecordsDatabase, id: string, withDrafts: boolean): Promise<Shelved | null> {
  const draft = withDrafts
    ? await db.selectFrom('drill_drafts').select('hash').where('drill_id', '=', id).executeTakeFirst()
    : null;
  if (draft) return { hash: draft.hash, draft: true };
  const kept = await db.selectFrom('own_drills').select('hash').where('drill_id', '=', id).executeTakeFirst();
  return kept ? { hash: kept.hash, draft: false } : null;
}

/** Whether a version is only there to be tried. One that was assigned has been for everybody before and stays so. */
export async function isDraft(db: RecordsDatabase, hash: string): Promise<boolean> {
  const row = await db
    .selectFrom('drill_drafts')
    .select('drill_id')
    .where('hash', '=', hash)
    .where('hash', 'not in', (inner) => inner.selectFrom('assignment_drills').select('drill_hash'))
    .executeTakeFirst();
  return row !== undefined;
}
