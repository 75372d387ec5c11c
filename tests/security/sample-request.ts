import { z } from 'zod';
import { VERBS, type Verb } from '../../electron/contract.ts';

type JsonSchema = z.core.JSONSchema.JSONSchema;

/** Texts that between them meet every pattern of the contract. */
const TEXTS = [
  'a',
  'en',
  '0123456789abcdef',
  '0123456789abcdef'.repeat(4),
  '00000000-0000-4000-8000-000000000000',
  'QUJD',
  '2030-01-01T00:00:00.000Z',
  'data:image/png;base64,iVBORw0KGgo=',
  '1280x720@1',
];

/** A request that a verb's schema takes, built from the schema alone; `known` gives values by field name. */
export function sampleRequest(verb: Verb, known: Record<string, unknown> = {}): unknown {
  const schema = VERBS[verb].request;
  const sample = sampleOf(z.toJSONSchema(schema, { io: 'input' }), '', known);
  schema.parse(sample);
  return sample;
}

function sampleOf(schema: JsonSchema, name: string, known: Record<string, unknown>): unknown {
  if (name in known) return known[name];
  if (schema.const !== undefined) return schema.const;
  if (schema.enum) return schema.enum[0];
  const options = schema.anyOf ?? schema.oneOf;
  if (options) return sampleOf(options[0] as JsonSchema, name, known);
  switch (Array.isArray(schema.type) ? schema.type[0] : schema.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(schema.properties ?? {}).map(([key, field]) => [key, sampleOf(field as JsonSchema, key, known)]),
      );
    case 'array':
      return [sampleOf(schema.items as JsonSchema, name, known)];
    case 'string':
      return sampleText(schema);
    case 'integer':
    case 'number':
      return Math.min(Math.max(1, schema.minimum ?? 0), schema.maximum ?? Number.POSITIVE_INFINITY);
    case 'boolean':
      return true;
    case 'null':
      return null;
    default:
      throw new Error(`The sample maker does not know ${JSON.stringify(schema)}`);
  }
}

function sampleText(schema: JsonSchema): string {
  const text = TEXTS.find(
    (candidate) =>
      candidate.length >= (schema.minLength ?? 0) && (schema.pattern === undefined || new RegExp(schema.pattern).test(candidate)),
  );
  if (text === undefined) throw new Error(`No sample text meets ${schema.pattern}`);
  return text;
}

/** Where a value stands inside a request: keys from the top. */
export type Place = (string | number)[];

/** Every place of a value, the value itself first. */
export function placesIn(value: unknown, at: Place = []): Place[] {
  if (typeof value !== 'object' || value === null) return [at];
  return [
    at,
    ...Object.entries(value).flatMap(([key, part]) => placesIn(part, [...at, Array.isArray(value) ? Number(key) : key])),
  ];
}

/** A copy with the value at a place put in another's stead. */
export function withValueAt(value: unknown, place: Place, other: unknown): unknown {
  const [key, ...rest] = place;
  if (key === undefined) return other;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string | number, unknown>;
  copy[key] = withValueAt(copy[key], rest, other);
  return copy;
}
