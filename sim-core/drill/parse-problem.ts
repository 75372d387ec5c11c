/** One thing wrong with a file: where (a JSON path such as `$.rig.currentA`, or `line 3, column 7`) and what, one sentence. */
export interface ParseProblem {
  path: string;
  sentence: string;
}

/** What reading a file came to. Never throws: a broken file is an ordinary answer. */
export type ParseResult<T> =
  | {
      ok: true;
      value: T /** formatVersion the file was written in, where it was older than today's. */;
      migratedFrom: number | null;
    }
  | { ok: false; problems: ParseProblem[] };

export function refused(path: string, sentence: string): { ok: false; problems: ParseProblem[] } {
  return { ok: false, problems: [{ path, sentence }] };
}
