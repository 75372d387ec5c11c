import { parseArgs } from 'node:util';
import { UsageError } from './command-error.ts';
import type { Flags, Verb } from './verb.ts';

/** Reads a verb's arguments. Throws UsageError on an unknown flag, a flag without its figure, a word too many or too few. */
export function readFlags(verb: Verb, args: readonly string[]): Flags {
  const options = { ...verb.flags, json: { type: 'boolean' as const } };
  let parsed: ReturnType<typeof parseArgs>;
  try {
    parsed = parseArgs({ args: joinNegatives(args), options, allowPositionals: true, strict: true });
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    throw new UsageError(sentence(error.message));
  }
  const words = parsed.positionals;
  if (words.length < verb.words.length) throw new UsageError(`${verb.words[words.length]} is missing.`);
  if (words.length > verb.words.length) throw new UsageError(`"${words[verb.words.length].slice(0, 60)}" is one word too many.`);
  return {
    json: parsed.values.json === true,
    words,
    text(flag) {
      const value = parsed.values[flag];
      return typeof value === 'string' ? value : undefined;
    },
  };
}

/** `--travel-angle -40` would be read as two flags: it becomes `--travel-angle=-40`. */
function joinNegatives(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1);
    if (/^-[\d.]/.test(arg) && before !== undefined && /^--[a-z-]+$/.test(before)) joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

/** Node's own complaint, without its advice on how to quote. */
function sentence(message: string): string {
  const first = message.split('. ')[0].split('\n')[0];
  return first.endsWith('.') ? first : `${first}.`;
}

/** A flag's figure within bounds. Throws UsageError where it is missing, no number, or outside. */
export function figure(flags: Flags, flag: string, low: number, high: number): number {
  const value = optionalFigure(flags, flag, low, high);
  if (value === undefined) throw new UsageError(`--${flag} is missing.`);
  return value;
}

/** The same for a flag that may be left out. */
export function optionalFigure(flags: Flags, flag: string, low: number, high: number): number | undefined {
  const text = flags.text(flag);
  if (text === undefined) return undefined;
  const value = Number(text);
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text) || !Number.isFinite(value)) {
    throw new UsageError(`--${flag} must be a number and is "${text.slice(0, 40)}".`);
  }
  if (value < low || value > high) throw new UsageError(`--${flag} must be ${low} to ${high} and is ${text}.`);
  return value;
}

/** A flag's word among those there are. Throws UsageError otherwise. */
export function choice<T extends string>(flags: Flags, flag: string, among: readonly T[]): T {
  const text = flags.text(flag);
  if (text === undefined) throw new UsageError(`--${flag} is missing.`);
  const found = among.find((candidate) => candidate === text);
  if (found === undefined) throw new UsageError(`--${flag} must be ${among.join(' or ')} and is "${text.slice(0, 40)}".`);
  return found;
}
