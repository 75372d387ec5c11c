import { DEFAULT_SETTINGS, type Settings, settingsSchema } from '../contract.ts';
import type { RecordsDatabase } from './records-tables.ts';

export interface SettingsStore {
  get(): Promise<Settings>;
  set(changes: Partial<Settings>): Promise<Settings>;
  /** Values that are not the page's settings, by name ('chosen-person'); null where never written. */
  read(name: string): Promise<unknown>;
  write(name: string, value: unknown): Promise<void>;
}

/** Settings as one row a name, the value JSON. A stored value that the schema no longer takes falls back to its default. */
export function createSettingsStore(db: RecordsDatabase): SettingsStore {
  async function read(name: string): Promise<unknown> {
    const row = await db.selectFrom('settings').select('value').where('name', '=', name).executeTakeFirst();
    return row ? keptValue(row.value) : null;
  }

  async function write(target: RecordsDatabase, name: string, value: unknown): Promise<void> {
    const text = JSON.stringify(value);
    await target
      .insertInto('settings')
      .values({ name, value: text })
      .onConflict((conflict) => conflict.column('name').doUpdateSet({ value: text }))
      .execute();
  }

  async function get(): Promise<Settings> {
    const rows = await db.selectFrom('settings').selectAll().execute();
    const settings: Record<string, unknown> = { ...DEFAULT_SETTINGS };
    for (const row of rows) {
      if (!Object.hasOwn(settingsSchema.shape, row.name)) continue;
      const field = settingsSchema.shape[row.name as keyof Settings].safeParse(keptValue(row.value));
      if (field.success) settings[row.name] = field.data;
    }
    return settings as Settings;
  }

  return {
    get,
    read,
    write: (name, value) => write(db, name, value),
    async set(changes) {
      await db.transaction().execute(async (step) => {
        for (const [name, value] of Object.entries(changes)) if (value !== undefined) await write(step, name, value);
      });
      return await get();
    },
  };
}

/** A stored value; null where somebody has put there what is no JSON. */
function keptValue(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
