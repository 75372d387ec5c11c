import type { z } from 'zod';
import { type ParseProblem, type ParseResult, refused } from './parse-problem.ts';
import { problemsFromZod } from './problems-from-zod.ts';
import { scanJson } from './scan-json.ts';

/** Any JSON object, before its schema is known to hold. */
export type JsonObject = Record<string, unknown>;

/** One named step that lifts a file from one version to the next. `apply` may throw MigrationError only. */
export interface Migration {
  from: number;
  name: string;
  apply(file: JsonObject): JsonObject;
}

/** A file of an old version that its own old rules would already have refused. */
export class MigrationError extends Error {
  readonly path: string;
  constructor(path: string, sentence: string) {
    super(sentence);
    this.path = path;
  }
}

/** What makes a kind of file: its name, today's version, its schema and the way up from every older version. */
export interface FileFormat<T> {
  format: string;
  /** Word for it in sentences, with its article: 'a drill'. */
  called: string;
  version: number;
  schema: z.ZodType<T>;
  migrations: readonly Migration[];
}

/** Reads one file of the given kind. Pure, never throws on any text. */
export function parseVersionedFile<T>(text: string, limit: number, kind: FileFormat<T>): ParseResult<T> {
  if (text.length > limit) {
    return refused('$', `The file is ${text.length} characters long; ${kind.called} has at most ${limit}.`);
  }
  const scan = scanJson(text);
  if (!scan.ok) return { ok: false, problems: [scan.problem] };
  return readVersionedValue(scan.value, kind);
}

/** The same for a value that has already been read from JSON. */
export function readVersionedValue<T>(value: unknown, kind: FileFormat<T>): ParseResult<T> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refused('$', `This is not ${kind.called}: the file must hold one JSON object.`);
  }
  const file = value as JsonObject;
  if (file.format !== kind.format) {
    const found = typeof file.format === 'string' ? `"${file.format.slice(0, 60)}"` : 'missing';
    return refused('$.format', `This is not ${kind.called}: format must be "${kind.format}" and is ${found}.`);
  }
  const version = file.formatVersion;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 0) {
    return refused('$.formatVersion', 'The formatVersion must be a whole number, 0 or more.');
  }
  if (version > kind.version) {
    return refused(
      '$.formatVersion',
      `The file has formatVersion ${version}, this program reads up to formatVersion ${kind.version}; a newer program is needed.`,
    );
  }
  const lifted = migrate(file, version, kind);
  if (!lifted.ok) return lifted;
  const parsed = kind.schema.safeParse(lifted.file);
  if (!parsed.success) return { ok: false, problems: problemsFromZod(parsed.error, lifted.file) };
  return { ok: true, value: parsed.data, migratedFrom: version === kind.version ? null : version };
}

function migrate<T>(
  file: JsonObject,
  version: number,
  kind: FileFormat<T>,
): { ok: true; file: JsonObject } | { ok: false; problems: ParseProblem[] } {
  let current = file;
  for (let at = version; at < kind.version; at++) {
    const step = kind.migrations.find((migration) => migration.from === at);
    if (!step) return refused('$.formatVersion', `Files of formatVersion ${at} can no longer be read.`);
    try {
      current = { ...step.apply(current), formatVersion: at + 1 };
    } catch (error) {
      if (!(error instanceof MigrationError)) throw error;
      return refused(error.path, `${error.message} (formatVersion ${at}, step "${step.name}")`);
    }
  }
  return { ok: true, file: current };
}
