import { type SpeedWindowKey, type SpeedWindowRecord, speedWindowSchema } from '../contract.ts';
import type { RecordsDatabase } from './records-tables.ts';

export interface SpeedWindows {
  get(key: SpeedWindowKey): Promise<{ window: SpeedWindowRecord | null }>;
  put(key: SpeedWindowKey, window: SpeedWindowRecord): Promise<Record<string, never>>;
}

/** Travel-speed windows that pages have computed once; each costs up to some seconds. Anybody may put one: for showing, not for deciding. */
export function createSpeedWindows(db: RecordsDatabase): SpeedWindows {
  const row = (key: SpeedWindowKey) => ({
    core_version: key.coreVersion,
    material: key.material,
    thickness_mm: key.thicknessMm,
    current_a: key.currentA,
    rig: key.rig,
  });
  return {
    async get(key) {
      const found = await db
        .selectFrom('speed_windows')
        .select('speed_window')
        .where((where) => where.and(row(key)))
        .executeTakeFirst();
      // A cache: what cannot be read counts as not there and is computed again.
      const stored = speedWindowSchema.safeParse(found && jsonOf(found.speed_window));
      return { window: stored.success ? stored.data : null };
    },
    async put(key, window) {
      const text = JSON.stringify(window);
      await db
        .insertInto('speed_windows')
        .values({ ...row(key), speed_window: text })
        .onConflict((conflict) =>
          conflict.columns(['core_version', 'material', 'thickness_mm', 'current_a', 'rig']).doUpdateSet({ speed_window: text }),
        )
        .execute();
      return {};
    },
  };
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
