import type { z } from 'zod';
import type { ParseProblem } from './parse-problem.ts';

/** As many problems as are told at once; a file that is wrong everywhere needs no longer list. */
const MOST_PROBLEMS = 20;

type Issue = z.core.$ZodIssue;

/** A schema's complaints as JSON paths and sentences. `input` is the value that was refused. */
export function problemsFromZod(error: z.ZodError, input: unknown): ParseProblem[] {
  return error.issues.slice(0, MOST_PROBLEMS).flatMap((issue) => problemsOfIssue(issue, input));
}

/** `$.path.segments[0].to.xMm`; a key that is no plain name is quoted. */
export function jsonPath(keys: readonly PropertyKey[]): string {
  let path = '$';
  for (const key of keys) {
    if (typeof key === 'number') path += `[${key}]`;
    else if (/^[A-Za-z_$][\w$]*$/.test(String(key))) path += `.${String(key)}`;
    else path += `[${JSON.stringify(String(key).slice(0, 60))}]`;
  }
  return path;
}

function problemsOfIssue(issue: Issue, input: unknown): ParseProblem[] {
  const path = jsonPath(issue.path);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys
      .slice(0, MOST_PROBLEMS)
      .map((key) => ({ path: jsonPath([...issue.path, key]), sentence: 'There is no such field; remove it or mend its name.' }));
  }
  return [{ path, sentence: sentenceOf(issue, valueAt(input, issue.path)) }];
}

function sentenceOf(issue: Issue, found: unknown): string {
  switch (issue.code) {
    case 'invalid_type':
      return found === undefined
        ? `This field is missing; it must be ${article(issue.expected)}.`
        : `Must be ${article(issue.expected)} and is ${shown(found)}.`;
    case 'too_big':
      return `Must be ${sizeWord(issue.origin, 'at most')} ${issue.maximum}${sizeUnit(issue.origin)} and is ${shown(found, issue.origin)}.`;
    case 'too_small':
      return `Must be ${sizeWord(issue.origin, 'at least')} ${issue.minimum}${sizeUnit(issue.origin)} and is ${shown(found, issue.origin)}.`;
    case 'invalid_value':
      return `Must be ${issue.values.map((value) => JSON.stringify(value)).join(' or ')} and is ${shown(found)}.`;
    case 'invalid_union':
      return `Is none of the kinds that can stand here: ${shown(found)}.`;
    default:
      return asSentence(issue.message);
  }
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

function article(expected: string): string {
  const words: Record<string, string> = {
    int: 'a whole number',
    number: 'a number',
    string: 'a text',
    array: 'a list',
    object: 'an object',
  };
  return words[expected] ?? expected;
}

function sizeWord(origin: string, bound: string): string {
  return origin === 'array' || origin === 'string' ? `${bound === 'at most' ? 'no longer than' : 'no shorter than'}` : bound;
}

function sizeUnit(origin: string): string {
  if (origin === 'array') return ' entries';
  return origin === 'string' ? ' characters' : '';
}

function shown(found: unknown, origin = ''): string {
  if (found === undefined) return 'missing';
  if (origin === 'array' && Array.isArray(found)) return `${found.length} long`;
  if (origin === 'string' && typeof found === 'string') return `${found.trim().length} long`;
  if (Array.isArray(found)) return 'a list';
  if (typeof found === 'object' && found !== null) return 'an object';
  const text = JSON.stringify(found);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function asSentence(message: string): string {
  const trimmed = message.trim();
  return `${trimmed.charAt(0).toUpperCase()}${trimmed.slice(1)}${/[.!?]$/.test(trimmed) ? '' : '.'}`;
}
