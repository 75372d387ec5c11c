import Papa from 'papaparse';

export type CsvCell = string | number | boolean | null;

/**
 * CSV text (RFC 4180): comma, quotes where needed, CRLF, a heading line; a byte order mark so that spreadsheets read it as UTF-8.
 * Figures have a decimal point whatever the place. Text that a spreadsheet would take for a formula is marked with an apostrophe.
 */
export function csvText<T extends Record<string, CsvCell>>(columns: readonly (keyof T & string)[], rows: readonly T[]): string {
  return csvHead(columns) + csvRows(columns, rows);
}

/** What such a text begins with. */
export function csvHead(columns: readonly string[]): string {
  return `\uFEFF${Papa.unparse([[...columns]], { newline: '\r\n' })}\r\n`;
}

/** More rows for a text that has its heading line. */
export function csvRows<T extends Record<string, CsvCell>>(columns: readonly (keyof T & string)[], rows: readonly T[]): string {
  if (rows.length === 0) return '';
  const cells = rows.map((row) => columns.map((name) => cellText(row[name])));
  return `${Papa.unparse(cells, { newline: '\r\n', escapeFormulae: FORMULA })}\r\n`;
}

/**
 * What a spreadsheet may take for the beginning of a formula, the signs of double width too, behind apostrophes or none: so that
 * one more of them can be told from those that a person typed. A negative figure is left alone.
 */
const FORMULA = /^'*[=+@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]|^'+-|^-(?!\d+(\.\d+)?$)/;

/** Text of a cell without the mark that `csvRows` puts before what looks like a formula. */
export function unmarkedCell(cell: string): string {
  return cell.replace(/^'(?='*[-=+@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20])/, '');
}

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  return String(cell);
}
