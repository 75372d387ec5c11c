import { z } from 'zod';
import { HAND_FORMAT_VERSION, handScriptSchema } from './hand-script-schema.ts';
import { DRILL_FORMAT_VERSION, drillSchema } from './schema.ts';

/** A JSON Schema that is published beside the drills, from the very schema that reads the files. */
export interface PublishedSchema {
  fileName: string;
  schema: Record<string, unknown>;
}

export function publishedSchemas(): PublishedSchema[] {
  return [
    published('drill', `Kerfhand drill, formatVersion ${DRILL_FORMAT_VERSION}`, drillSchema, DRILL),
    published('hand', `Kerfhand hand script, formatVersion ${HAND_FORMAT_VERSION}`, handScriptSchema, HAND),
  ];
}

const DRILL = 'One practice cut: plate, rig, line, tolerances and rubric. Lengths mm, currents A, angles degrees.';
const HAND = 'What a synthetic hand does, step by step, and how steady it is. Lengths mm, speeds mm/s, angles degrees, times s.';

function published(name: string, title: string, source: z.ZodType, description: string): PublishedSchema {
  const { $schema, ...body } = z.toJSONSchema(source, { io: 'input', target: 'draft-2020-12' });
  const $id = `https://kerfhand.example/${name}.schema.json`;
  return { fileName: `${name}.schema.json`, schema: { $schema, $id, title, description, ...body } };
}
