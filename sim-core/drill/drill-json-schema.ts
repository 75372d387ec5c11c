import { z } from 'zod';
import { drillSchema } from './schema.ts';

/** The published JSON Schema of the drill file, from the very schema that reads it (scenarios/drill.schema.json). */
export function drillJsonSchema(): Record<string, unknown> {
  const { $schema, ...body } = z.toJSONSchema(drillSchema, { io: 'input', target: 'draft-2020-12' });
  return {
    $schema,
    $id: 'https://kerfhand.example/drill.schema.json',
    title: 'Kerfhand drill, formatVersion 1',
    description: 'One practice cut: plate, rig, line, tolerances and rubric. Lengths mm, currents A, angles degrees.',
    ...body,
  };
}
