import { DRILL_FORMAT } from '../../sim-core/index.ts';

/** What a file is that somebody brings: kinds that Kerfhand takes in, and kinds that it knows and has no use for here. */
export type FileKind =
  | 'run'
  | 'drill'
  | 'pack'
  | 'backup'
  | 'roster'
  | 'verdict'
  | 'hand'
  | 'public-key'
  | 'other-table'
  | 'other-format'
  | 'empty'
  | 'unknown';

/** Files up to here are read whole to tell what they are; of a larger one, which can only be a backup, the beginning is enough. */
export const LOOKED_AT_BYTES = 32 * 1024 * 1024;

const KIND_OF_FORMAT: Record<string, FileKind> = {
  'kerfhand-run': 'run',
  [DRILL_FORMAT]: 'drill',
  'kerfhand-pack': 'pack',
  'kerfhand-backup': 'backup',
  'kerfhand-verdict': 'verdict',
  'kerfhand-hand': 'hand',
};

/** Columns without which a table names nobody. */
const ROSTER_COLUMNS = ['role', 'number'];

/** As our own files begin; a drill may name its schema before. */
const NAMED_AT_THE_BEGINNING = /^\s*\{\s*(?:"\$schema"\s*:\s*"[^"\\]*"\s*,\s*)?"format"\s*:\s*"([^"\\]{1,80})"/;

function formatOfJson(text: string): unknown {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && 'format' in value ? value.format : undefined;
  } catch {
    return undefined;
  }
}

/**
 * The `format` that a file names itself by. Run files and backups have it in their first line, all else in the document as a whole.
 * A file that is cut off or damaged still tells by its beginning what it was, so that its own reader can say what is wrong.
 */
function formatOf(text: string): unknown {
  const lineEnd = text.indexOf('\n');
  const first = lineEnd < 0 ? text : text.slice(0, lineEnd);
  return formatOfJson(first) ?? formatOfJson(text) ?? NAMED_AT_THE_BEGINNING.exec(text)?.[1];
}

function isRosterHead(line: string): boolean {
  const columns = line.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"|"$/g, '').toLowerCase());
  return ROSTER_COLUMNS.every((column) => columns.includes(column));
}

/** Tells by what is in a file what it is; its name counts only where the content says nothing. */
export function fileKindOf(name: string, text: string): FileKind {
  const content = text.replace(/^\uFEFF/, '');
  if (content.trim() === '') return 'empty';
  const format = formatOf(content);
  if (typeof format === 'string') return KIND_OF_FORMAT[format] ?? 'other-format';
  if (content.trimStart().startsWith('-----BEGIN PUBLIC KEY-----')) return 'public-key';
  const [head = ''] = content.trimStart().split(/\r?\n/, 1);
  if (isRosterHead(head)) return 'roster';
  return /\.(csv|tsv)$/i.test(name) ? 'other-table' : 'unknown';
}
