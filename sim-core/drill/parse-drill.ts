import { drillFormat } from './drill-format.ts';
import type { ParseResult } from './parse-problem.ts';
import { parseVersionedFile } from './parse-versioned-file.ts';
import type { Drill } from './schema.ts';

/** Longest drill file that is read at all, in UTF-16 units. The longest that the schema admits is well below it. */
export const DRILL_TEXT_LIMIT = 512 * 1024;

/**
 * Reads a drill file. Order of checks: size, JSON syntax (line and column), `format`, `formatVersion` (a newer one is
 * refused with both versions named), migration of an older one, then the schema, every problem with its JSON path.
 * It does not ask whether the drill can be cut: that is `checkFeasibility`.
 */
export function parseDrill(text: string): ParseResult<Drill> {
  return parseVersionedFile(text, DRILL_TEXT_LIMIT, drillFormat);
}
