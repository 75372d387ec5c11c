import type { Person } from '../../contract.ts';
import { composedName } from '../group-names.ts';
import { HostError } from '../host-error.ts';
import { csvText } from './csv-text.ts';
import { type CsvRow, readCsv } from './read-csv.ts';

type Role = Person['role'];
const ROLES: readonly Role[] = ['apprentice', 'instructor', 'assessor'];
const COLUMNS = ['role', 'number', 'groups'] as const;
/** Between the groups of one cell: no separator of CSV, and none in the name of a group. */
const BETWEEN_GROUPS = '|';
const HIGHEST_NUMBER = 9999;
const LONGEST_GROUP = 60;

/** One person as a roster names them: people are numbers, no names. */
export interface RosterPerson {
  role: Role;
  number: number;
  groups: string[];
}

/**
 * new: not there yet. changed: there, with other groups. unchanged: just as it is. wrong: will not be taken, for the reason given.
 * Every row of the file is one of them.
 */
export type RosterRow =
  | { kind: 'new' | 'unchanged'; line: number; person: RosterPerson }
  | { kind: 'changed'; line: number; person: RosterPerson; before: string[] }
  | { kind: 'wrong'; line: number; reason: string; cells: Record<string, string> };

export interface RosterPreview {
  rows: RosterRow[];
  counts: Record<RosterRow['kind'], number>;
  /** Groups that would come into being. */
  newGroups: string[];
  /** People of the yard that the file does not name: they stay as they are. */
  notNamed: RosterPerson[];
  /** Columns of the file that are not looked at. */
  ignoredColumns: string[];
}

/** A row that names a person, or why it names none. */
type ReadRow = { row: CsvRow; person: RosterPerson } | { row: CsvRow; reason: string };

/**
 * What taking in a roster would do, row by row; changes nothing.
 * A roster makes apprentices only: instructors and assessors enter with a passphrase, which no file can give them.
 * @throws HostError 'bad-file' or 'too-large' where the file as a whole cannot be read
 */
export function previewRoster(text: string, yard: readonly RosterPerson[]): RosterPreview {
  const { columns, rows: read } = readRoster(text);
  const known = new Map(yard.map((person) => [keyOf(person), person]));
  const rows = read.map((one) => rowOf(one, known, columns.includes('groups')));
  const counts = { new: 0, changed: 0, unchanged: 0, wrong: 0 };
  for (const { kind } of rows) counts[kind]++;
  const named = new Set(read.flatMap((one) => ('person' in one ? [keyOf(one.person)] : [])));
  return {
    rows,
    counts,
    newGroups: newGroups(rows, yard),
    notNamed: yard.filter((person) => !named.has(keyOf(person))),
    ignoredColumns: columns.filter((name) => name !== '' && !COLUMNS.some((column) => column === name)),
  };
}

/** What is wrong with a roster whatever the yard, with the line of each. @throws HostError as `previewRoster` does */
export function rosterProblems(text: string): { line: number; reason: string }[] {
  return readRoster(text).rows.flatMap((one) => ('reason' in one ? [{ line: one.row.line, reason: one.reason }] : []));
}

function readRoster(text: string): { columns: string[]; rows: ReadRow[] } {
  const table = readCsv(text);
  const missing = ['role', 'number'].filter((name) => !table.columns.includes(name));
  if (missing.length > 0) {
    const named = missing.map((name) => `"${name}"`).join(' and no column ');
    throw new HostError('bad-file', `The heading line has no column ${named}; a roster has the columns role, number and groups.`);
  }
  const firstLine = new Map<string, number>();
  const rows = table.rows.map((row): ReadRow => {
    const person = readPerson(row);
    if (typeof person === 'string') return { row, reason: person };
    const earlier = firstLine.get(keyOf(person));
    if (earlier !== undefined) return { row, reason: `${nameOf(person)} stands in line ${earlier} already.` };
    firstLine.set(keyOf(person), row.line);
    return { row, person };
  });
  return { columns: table.columns, rows };
}

function rowOf(one: ReadRow, known: ReadonlyMap<string, RosterPerson>, hasGroups: boolean): RosterRow {
  const { line, cells } = one.row;
  if ('reason' in one) return { kind: 'wrong', line, reason: one.reason, cells };
  const { person } = one;
  const before = known.get(keyOf(person));
  if (!before) {
    if (person.role === 'apprentice') return { kind: 'new', line, person };
    const reason = `${nameOf(person)} is not in this yard: instructors and assessors are made with a passphrase, not by a roster.`;
    return { kind: 'wrong', line, reason, cells };
  }
  // A file without the column says nothing about groups; an empty cell says that there are none.
  if (!hasGroups || sameGroups(before.groups, person.groups)) return { kind: 'unchanged', line, person: before };
  return { kind: 'changed', line, person, before: before.groups };
}

/** The people of a preview that are to be written: new ones and changed ones. */
export function rosterChanges(preview: RosterPreview): RosterPerson[] {
  return preview.rows.flatMap((row) => (row.kind === 'new' || row.kind === 'changed' ? [row.person] : []));
}

/** The roster of a yard; taken in again, every row of it is unchanged. */
export function rosterCsv(yard: readonly RosterPerson[]): string {
  const sorted = [...yard].sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role) || a.number - b.number);
  return csvText(
    COLUMNS,
    sorted.map(({ role, number, groups }) => ({ role, number, groups: [...groups].sort().join(BETWEEN_GROUPS) })),
  );
}

/** A row as a person, or the reason why it is none. */
function readPerson({ cells, problem }: CsvRow): RosterPerson | string {
  if (problem !== null) return problem;
  const role = ROLES.find((candidate) => candidate === cells.role.toLowerCase());
  if (!role) return `The role is "${shortened(cells.role)}" and must be ${ROLES.join(', ').replace(/, (?=[^,]*$)/, ' or ')}.`;
  const number = Number(cells.number);
  if (!/^\d{1,9}$/.test(cells.number) || number < 1 || number > HIGHEST_NUMBER) {
    return `The number is "${shortened(cells.number)}" and must be a whole number from 1 to ${HIGHEST_NUMBER}.`;
  }
  const groups = (cells.groups ?? '').split(BETWEEN_GROUPS).map((group) => composedName(group.trim()));
  const named = [...new Set(groups.filter((group) => group !== ''))];
  const tooLong = named.find((group) => group.length > LONGEST_GROUP);
  if (tooLong !== undefined) return `The group "${shortened(tooLong)}" has more than ${LONGEST_GROUP} characters.`;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  if (named.some((group) => /[\u0000-\u001f\u007f]/.test(group)))
    return 'The name of a group holds a line end or another control character.';
  return { role, number, groups: named };
}

function newGroups(rows: readonly RosterRow[], yard: readonly RosterPerson[]): string[] {
  const known = new Set(yard.flatMap((person) => person.groups));
  const named = rows.flatMap((row) => (row.kind === 'wrong' ? [] : row.person.groups));
  return [...new Set(named)].filter((group) => !known.has(group)).sort();
}

function keyOf({ role, number }: RosterPerson): string {
  return `${role} ${number}`;
}

function nameOf({ role, number }: RosterPerson): string {
  return `${role[0].toUpperCase()}${role.slice(1)} ${String(number).padStart(2, '0')}`;
}

function sameGroups(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && [...a].sort().join(BETWEEN_GROUPS) === [...b].sort().join(BETWEEN_GROUPS);
}

/** As much of a cell as a sentence holds, on one line. */
function shortened(text: string): string {
  const line = text.slice(0, 41).replace(/\p{Cc}+/gu, ' ');
  return line.length > 40 ? `${line.slice(0, 40)}...` : line;
}
