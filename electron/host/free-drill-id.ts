import type { RecordsDatabase } from './records-tables.ts';
import { shelvedHash } from './shelved-drills.ts';
import type { ShippedDrills } from './shipped-drills.ts';

/** Longest id that a drill may have, so that a counted-up one still fits. */
const ID_LIMIT = 64;

/** The first of id-2, id-3... that no drill on the shelf has. */
export async function freeDrillId(db: RecordsDatabase, shipped: ShippedDrills, id: string): Promise<string> {
  for (let number = 2; ; number++) {
    const suffix = `-${number}`;
    const candidate = id.slice(0, ID_LIMIT - suffix.length).replace(/-+$/, '') + suffix;
    if (shipped.byId.has(candidate)) continue;
    if (!(await shelvedHash(db, candidate, true))) return candidate;
  }
}
