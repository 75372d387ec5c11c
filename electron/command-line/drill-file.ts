import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { checkFeasibility, type Drill, type ParseProblem, parseDrill } from '../../sim-core/index.ts';
import { CommandError } from './command-error.ts';
import { readTextFile } from './read-file.ts';

/** Where the shipped drills are. */
const SCENARIOS = path.join(import.meta.dirname, '..', '..', 'scenarios');

export interface DrillFile {
  drill: Drill;
  text: string;
  file: string;
}

/** The shipped drills' files, in the order of their names. */
export function shippedDrillFiles(): string[] {
  return readdirSync(SCENARIOS)
    .filter((name) => name.endsWith('.json') && !name.endsWith('.schema.json'))
    .sort()
    .map((name) => path.join(SCENARIOS, name));
}

/** Reads a drill by file or by the id of a shipped one. Throws CommandError where it is none, is broken or cannot be cut. */
export function loadDrill(word: string): DrillFile {
  const read = readDrill(word);
  const [problem] = checkFeasibility(read.drill);
  if (problem) throw new CommandError(told(read.file, [problem]));
  return read;
}

/** The same without asking whether it can be cut. */
export function readDrill(word: string): DrillFile {
  const file = drillPath(word);
  const text = readTextFile(file);
  const result = parseDrill(text);
  if (!result.ok) throw new CommandError(told(file, result.problems));
  return { drill: result.value, text, file };
}

function drillPath(word: string): string {
  if (existsSync(word)) return word;
  const shipped = path.join(SCENARIOS, `${word}.json`);
  if (/^[a-z0-9-]+$/.test(word) && existsSync(shipped)) return shipped;
  throw new CommandError(`There is no drill file ${word}, and no shipped drill of that id.`);
}

/** One sentence for one problem or several: the first with its place, and how many more there are. */
export function told(file: string, problems: readonly ParseProblem[]): string {
  const [first] = problems;
  const more = problems.length > 1 ? ` (and ${problems.length - 1} more; "check" lists them)` : '';
  const place = first.path === '$' ? '' : ` at ${first.path}`;
  return `${file}${place}: ${first.sentence}${more}`;
}
