import { z } from 'zod';
import { VERB_NAMES, VERBS } from '../../electron/contract.ts';

type JsonSchema = z.core.JSONSchema.JSONSchema;

/** A text that a request may hold in any words: where it stands, and how long it may be. */
export interface FreeText {
  place: string;
  most: number;
}

/** Every one of the contract: texts that are no id, time, digest or other form. */
export function freeTexts(): FreeText[] {
  const found = new Map<string, number>();
  for (const verb of VERB_NAMES) collect(z.toJSONSchema(VERBS[verb].request, { io: 'input' }), verb, found);
  return [...found].map(([place, most]) => ({ place, most }));
}

function collect(schema: JsonSchema, at: string, found: Map<string, number>): void {
  for (const option of [...(schema.anyOf ?? []), ...(schema.oneOf ?? [])]) collect(option as JsonSchema, at, found);
  for (const [key, field] of Object.entries(schema.properties ?? {})) collect(field as JsonSchema, `${at}.${key}`, found);
  if (schema.items) collect(schema.items as JsonSchema, `${at}[]`, found);
  if (typeof schema.additionalProperties === 'object') collect(schema.additionalProperties, `${at}.*`, found);
  if (schema.type !== 'string' || schema.const !== undefined || schema.enum) return;
  // A form that takes a sentence is none.
  if (schema.format === undefined && (schema.pattern === undefined || new RegExp(schema.pattern, 'u').test('Say <b> "it".')))
    found.set(at, schema.maxLength ?? Number.POSITIVE_INFINITY);
}

/** Set by any of the scripts below that is run. */
export const RAN = 'hostileRan';

const MORE = [
  `"><script>${RAN}=1</script>`,
  `'><svg onload=${RAN}=1>`,
  `</textarea></title></style><iframe srcdoc="<script>parent.${RAN}=1</script>">`,
  `javascript:${RAN}=1`,
  `[a](javascript:${RAN}=1) <a href="javascript:${RAN}=1">a</a>`,
  '<link rel=stylesheet href=//elsewhere.invalid/a.css><meta http-equiv=refresh content="0;url=//elsewhere.invalid/">',
  '<base href=//elsewhere.invalid/><form action=//elsewhere.invalid/><input name=a>',
  '{{7*7}} #{7*7} <%= 7*7 %> %s %n &lt;b&gt;',
  '\u202Egnp.exe \u2067abc \u200F\u200B\uFEFF Z\u0351\u036B\u0343 \u{1F525}',
];

/** Numbers every text that is made, so that each can be found again on a page. */
export function hostileWords() {
  const made = new Map<string, string>();
  return {
    /** By place, what the text begins with and how a page must show it. */
    made,
    /** As much that would do harm as the length lets in; the rest of it is one long word. */
    text(place: string, most: number): string {
      const number = made.size + 10;
      const sign = most < 40 ? `<${number}>` : `k${number}<img src=x onerror=${RAN}=1>`;
      made.set(place, sign);
      let text = sign;
      for (const more of MORE) if (text.length + 1 + more.length <= most) text += ` ${more}`;
      const room = Math.min(most, 10_000) - text.length - 1;
      return room > 0 ? `${text} ${'W'.repeat(room)}` : text;
    },
  };
}
