import type { Kysely } from 'kysely';
import { foreignText } from './foreign-text.ts';
import { HostError } from './host-error.ts';
import { firstRecords } from './migrations/001-first-records.ts';
import { rigChoices } from './migrations/002-rig-choices.ts';
import { passphrases } from './migrations/003-passphrases.ts';
import { ledger } from './migrations/004-ledger.ts';
import { drillDemonstrations } from './migrations/005-drill-demonstrations.ts';
import { runContents } from './migrations/006-run-contents.ts';
import { yard } from './migrations/007-yard.ts';
import { verdicts } from './migrations/008-verdicts.ts';
import { drillDrafts } from './migrations/009-drill-drafts.ts';
import { handScale } from './migrations/010-hand-scale.ts';
import { speedGuess } from './migrations/011-speed-guess.ts';
import { plateByMetal } from './migrations/012-plate-by-metal.ts';
import type { RecordsDatabase } from './records-tables.ts';

export interface RecordsMigration {
  name: string;
  up: (db: Kysely<never>) => Promise<void>;
}

/** In order; the version of a records file is the number of migrations it has been through. Never change one that was released. */
export const RECORDS_MIGRATIONS: readonly RecordsMigration[] = [
  { name: '001-first-records', up: firstRecords },
  { name: '002-rig-choices', up: rigChoices },
  { name: '003-passphrases', up: passphrases },
  { name: '004-ledger', up: ledger },
  { name: '005-drill-demonstrations', up: drillDemonstrations },
  { name: '006-run-contents', up: runContents },
  { name: '007-yard', up: yard },
  { name: '008-verdicts', up: verdicts },
  { name: '009-drill-drafts', up: drillDrafts },
  { name: '010-hand-scale', up: handScale },
  { name: '011-speed-guess', up: speedGuess },
  { name: '012-plate-by-metal', up: plateByMetal },
];

/**
 * @param applied the steps that a records file has been through, in order
 * @throws HostError 'newer-version' where this program does not know one of them
 */
export function mustBeKnown(
  applied: readonly { version: unknown; name: unknown; app_version: unknown }[],
  where: string,
  appVersion: string,
  migrations: readonly RecordsMigration[] = RECORDS_MIGRATIONS,
): void {
  const newest = applied.at(-1);
  const strange = applied.find((row, index) => row.version !== index + 1 || row.name !== migrations[index]?.name);
  if (newest && strange) {
    throw new HostError(
      'newer-version',
      `The records in ${where} are of version ${foreignText(newest.version)} (written by Kerfhand ${foreignText(newest.app_version)}), this Kerfhand ${appVersion} knows records up to version ${migrations.length}; use the newer program, nothing was changed.`,
    );
  }
}

/**
 * Brings the records to the newest version, all in one transaction: either every missing step is there afterwards or none.
 * kysely's own Migrator is not used because on SQLite it runs outside a transaction.
 * @returns the names of the steps taken now
 * @throws HostError 'newer-version' where the file has been through steps that this program does not know
 */
export async function migrateRecords(
  db: RecordsDatabase,
  where: string,
  appVersion: string,
  migrations: readonly RecordsMigration[] = RECORDS_MIGRATIONS,
): Promise<string[]> {
  return await db.transaction().execute(async (step) => {
    await step.schema
      .createTable('migrations')
      .ifNotExists()
      .addColumn('version', 'integer', (c) => c.primaryKey())
      .addColumn('name', 'text', (c) => c.notNull())
      .addColumn('applied_at', 'text', (c) => c.notNull())
      .addColumn('app_version', 'text', (c) => c.notNull())
      .execute();
    const applied = await step.selectFrom('migrations').select(['version', 'name', 'app_version']).orderBy('version').execute();
    mustBeKnown(applied, where, appVersion, migrations);
    const missing = migrations.slice(applied.length);
    for (const [index, migration] of missing.entries()) {
      await migration.up(step as unknown as Kysely<never>);
      await step
        .insertInto('migrations')
        .values({
          version: applied.length + index + 1,
          name: migration.name,
          applied_at: new Date().toISOString(),
          app_version: appVersion,
        })
        .execute();
    }
    return missing.map((migration) => migration.name);
  });
}
