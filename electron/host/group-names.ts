import type { RecordsDatabase } from './records-tables.ts';

/** The name of a group with its accents composed: however they were typed, a name that looks the same is the same. */
export function composedName(name: string): string {
  return name.normalize('NFC');
}

/** Groups by their composed names. Records of before names were composed may hold one name in two forms; then the older group. */
export async function groupIdsByName(db: RecordsDatabase): Promise<Map<string, string>> {
  const groups = await db.selectFrom('groups').select(['id', 'name']).orderBy('created_at', 'desc').orderBy('id').execute();
  return new Map(groups.map(({ id, name }) => [composedName(name), id]));
}
