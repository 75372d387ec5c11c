// Writes the published JSON Schemas anew after a change of the formats: node tests/scenarios/write-schemas.ts
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { publishedPackSchema } from '../../electron/host/papers/published-pack-schema.ts';
import { publishedSchemas } from '../../sim-core/drill/published-schemas.ts';
import { SCENARIOS } from './drill-files.ts';

for (const { fileName, schema } of [...publishedSchemas(), publishedPackSchema()]) {
  writeFileSync(path.join(SCENARIOS, fileName), `${JSON.stringify(schema, null, 2)}\n`);
}
