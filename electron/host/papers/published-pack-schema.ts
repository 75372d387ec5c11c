import { z } from 'zod';
import { PACK_FORMAT_VERSION, packSchema } from './drill-pack.ts';

const BASE = 'https://kerfhand.example/';

/** JSON Schema of drill packs, published beside that of drills, which it refers to: from the very schema that reads the files. */
export function publishedPackSchema(): { fileName: string; schema: Record<string, unknown> } {
  const { $schema, ...body } = z.toJSONSchema(packSchema, {
    io: 'input',
    target: 'draft-2020-12',
    override: ({ path, jsonSchema }) => {
      if (path.at(-1) !== 'drill') return;
      for (const key of Object.keys(jsonSchema)) delete jsonSchema[key as keyof typeof jsonSchema];
      jsonSchema.$ref = `${BASE}drill.schema.json`;
    },
  });
  const title = `Kerfhand drill pack, formatVersion ${PACK_FORMAT_VERSION}`;
  const description =
    'Drills to hand on, with what they took the place of and the runs that show them. sha256 is that of the canonical JSON (RFC 8785) of all the rest; that of a drill is of its minified JSON.';
  return { fileName: 'pack.schema.json', schema: { $schema, $id: `${BASE}pack.schema.json`, title, description, ...body } };
}
