import Papa from 'papaparse';
import { MOST_PEOPLE } from '../../contract/yard.ts';
import { HostError } from '../host-error.ts';
import { unmarkedCell } from './csv-text.ts';

/** Longest CSV text that is read, in UTF-16 units; ten thousand rows of two hundred. */
export const CSV_TEXT_LIMIT = 2 * 1024 * 1024;
/** Most rows that are taken at once, the heading line not counted. */
const MOST_ROWS = MOST_PEOPLE;
/** Empty lines are none of them, but take their time all the same. */
const MOST_LINES = 2 * MOST_ROWS;
/** Many times those of any table of ours: every row is held against every column. */
const MOST_COLUMNS = 100;

export interface CsvRow {
  /** Line of the file on which the row begins, counted from 1. */
  line: number;
  /** By the small-letter name of the column, without spaces around it. */
  cells: Record<string, string>;
  /** Why the row cannot be read as one, else null. */
  problem: string | null;
}

export interface CsvTable {
  columns: string[];
  rows: CsvRow[];
}

/**
 * Reads CSV (RFC 4180) with a heading line; comma, semicolon or tab, with or without a byte order mark. Empty lines are left out.
 * @throws HostError 'too-large' (text, rows or columns), or 'bad-file' where there is no heading line, a column stands twice, or a quote is never closed
 */
export function readCsv(text: string): CsvTable {
  if (text.length > CSV_TEXT_LIMIT) {
    throw new HostError('too-large', `The file is ${text.length} characters long; a CSV file has at most ${CSV_TEXT_LIMIT}.`);
  }
  const body = text.replace(/^\uFEFF/, '');
  const [heading, ...rest] = body.trim() === '' ? [] : rowsWithLines(body, delimiterOf(body));
  if (!heading) throw new HostError('bad-file', 'The file is empty; its first line must name the columns.');
  if (heading.cells.length > MOST_COLUMNS) {
    throw new HostError(
      'too-large',
      `Line ${heading.line} names ${heading.cells.length} columns; a table has at most ${MOST_COLUMNS}.`,
    );
  }
  const columns = heading.cells.map((name) => name.trim().toLowerCase());
  const twice = columns.find((name, index) => columns.indexOf(name) !== index);
  if (twice !== undefined) throw new HostError('bad-file', `The column "${twice}" stands twice in line ${heading.line}.`);
  return { columns, rows: rest.map((row) => ({ line: row.line, ...inColumns(row.cells, columns) })) };
}

function inColumns(cells: string[], columns: string[]): Omit<CsvRow, 'line'> {
  const problem =
    cells.length === columns.length
      ? null
      : `It has ${cells.length} ${cells.length === 1 ? 'cell' : 'cells'} and the heading line has ${columns.length}.`;
  return { cells: Object.fromEntries(columns.map((name, index) => [name, unmarkedCell(cells[index] ?? '').trim()])), problem };
}

/** The heading line decides: names of columns hold no separators. */
function delimiterOf(text: string): string {
  const heading = text.trimStart().split(/\r?\n|\r/, 1)[0];
  const counts = [',', ';', '\t'].map((mark) => ({ mark, count: heading.split(mark).length }));
  return counts.reduce((best, one) => (one.count > best.count ? one : best)).mark;
}

/** Rows with the line each begins on: a quoted cell may hold line ends, so that rows cannot simply be counted. */
function rowsWithLines(text: string, delimiter: string): { line: number; cells: string[] }[] {
  const rows: { line: number; cells: string[] }[] = [];
  let from = 0;
  let line = 1;
  let lines = 0;
  let unclosed: number | null = null;
  Papa.parse<string[]>(text, {
    delimiter,
    step({ data, errors, meta }, parser) {
      const [first] = data;
      if (errors.some((error) => error.type === 'Quotes')) unclosed ??= line;
      if (data.length > 1 || (first ?? '').trim() !== '') rows.push({ line, cells: data });
      line += (text.slice(from, meta.cursor).match(/\r\n|\n|\r/g) ?? []).length;
      from = meta.cursor;
      lines++;
      if (rows.length > MOST_ROWS + 1 || lines > MOST_LINES) parser.abort();
    },
  });
  if (rows.length > MOST_ROWS + 1)
    throw new HostError('too-large', `The file has more than ${MOST_ROWS} rows; at most ${MOST_ROWS} are taken at once.`);
  if (lines > MOST_LINES) throw new HostError('too-large', `The file has more than ${MOST_LINES} lines, most of them empty.`);
  if (unclosed !== null)
    throw new HostError(
      'bad-file',
      `A quotation mark in the row of line ${unclosed} is not where one can stand, or is never closed.`,
    );
  return rows;
}
