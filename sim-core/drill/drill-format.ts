import { DRILL_MIGRATIONS } from './migrations.ts';
import type { FileFormat } from './parse-versioned-file.ts';
import { DRILL_FORMAT, DRILL_FORMAT_VERSION, type Drill, drillSchema } from './schema.ts';

/** The drill file as a kind of file. */
export const drillFormat: FileFormat<Drill> = {
  format: DRILL_FORMAT,
  called: 'a drill',
  version: DRILL_FORMAT_VERSION,
  schema: drillSchema,
  migrations: DRILL_MIGRATIONS,
};
