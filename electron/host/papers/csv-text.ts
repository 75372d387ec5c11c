import Papa from 'papaparse';

export type CsvCell = string | number | boolean | null;

/**
 * CSV text (RFC 4180): comma, quotes where needed, CRLF, a heading line; a byte order mark so that spreadsheets read it as UTF-8.
 * Figures have a decimal point whatever the place. Text that a spreadsheet would take for a formula is marked with an apostrophe,
 * also where it would only begin a cell if the spreadsheet took semicolons or tabs for what parts the cells. Figures are left
 * alone; the first column is for names, since a negative figure there would begin the whole line.
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
  return `${Papa.unparse(cells, { newline: '\r\n', quotes: (cell: string) => SEPARATOR.test(cell) })}\r\n`;
}

/** What parts cells in some spreadsheet: which of them is a matter of the country that it is set to. */
const SEPARATOR = /[,;\t]/;

/**
 * The beginning of a cell, whichever separator is meant, with all that may be dropped from it and the sign of a formula if there is
 * one, the signs of double width too. Quotes do not hold a cell together that begins before them. One match takes a whole run of
 * what may be dropped, so that a long one is looked through once.
 */
const BEGINNING = /(?:^|(?<=[,;\t\r\n]))[\s\p{Cc}\p{Cf}"']*[-=+@\uFF1D\uFF0B\uFF0D\uFF20]?/gu;
const ENDS_IN_SIGN = /[-=+@\uFF1D\uFF0B\uFF0D\uFF20]$/;
/** A tab or line end in front is taken away by some programs. */
const ODD_START = /^["']*[\t\r\n]/;

function markedCell(cell: string): string {
  return cell.replace(BEGINNING, (run, at: number) => {
    if (ENDS_IN_SIGN.test(run)) return run.replace(/^|(?<=[\t\r\n])/g, "'");
    return at === 0 && ODD_START.test(run) ? `'${run}` : run;
  });
}

/** Text of a cell without the marks that `csvRows` puts before what looks like a formula. */
export function unmarkedCell(cell: string): string {
  // A mark is among what may be dropped: marked text has the same beginnings.
  return cell.replace(BEGINNING, (run, at: number) => {
    if (ENDS_IN_SIGN.test(run)) return run.replace(/(?:^|(?<=[\t\r\n]))'/g, '');
    return at === 0 && run.startsWith("'") && ODD_START.test(run.slice(1)) ? run.slice(1) : run;
  });
}

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  if (Number.isFinite(cell)) return String(cell);
  return markedCell(String(cell));
}
