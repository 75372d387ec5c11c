import { HAND_FORMAT, HAND_FORMAT_VERSION, type HandScript, handScriptSchema } from './hand-script-schema.ts';
import type { ParseResult } from './parse-problem.ts';
import { type FileFormat, type Migration, parseVersionedFile } from './parse-versioned-file.ts';

/** Longest hand script that is read at all, in UTF-16 units. */
export const HAND_TEXT_LIMIT = 512 * 1024;

/** The way up from every older version; version 1 is the first. */
export const HAND_MIGRATIONS: readonly Migration[] = [
  /** Version 2 only adds what a hand may do; a hand of version 1 does none of it. */
  { from: 1, name: 'hand-may-bear-and-pivot', apply: (file) => file },
];

export const handFormat: FileFormat<HandScript> = {
  format: HAND_FORMAT,
  called: 'a hand script',
  version: HAND_FORMAT_VERSION,
  schema: handScriptSchema,
  migrations: HAND_MIGRATIONS,
};

/** Reads a hand script as `parseDrill` reads a drill. */
export function parseHandScript(text: string): ParseResult<HandScript> {
  return parseVersionedFile(text, HAND_TEXT_LIMIT, handFormat);
}
