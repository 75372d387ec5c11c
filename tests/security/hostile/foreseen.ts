import { CommandError } from '../../../electron/command-line/command-error.ts';
import { HostError } from '../../../electron/host/host-error.ts';

/** What a parser made of an input: read, or refused in its own words. Anything else is a finding. */
export type Reading = 'read' | 'refused';

/** Words of an engine or a library, which no person should have to read. */
const ENGINE_WORDS =
  /is not a function|is not iterable|is not defined|of undefined|of null|Cannot read|Unexpected token|call stack|Invalid (array|string|typed array) length|\[object |SQLITE_|errcode|ZodError|\bat file:/;

/** Throws where `sentence` is not one that a person can do something with. */
export function mustBeSentence(sentence: string): void {
  if (!/^[^\n]{8,2000}[.!?)]$/u.test(sentence) || ENGINE_WORDS.test(sentence))
    throw new Error(`refused with what is no sentence of ours: ${JSON.stringify(sentence.slice(0, 300))}`);
}

/** A parser that answers with problems: each has a place and a sentence. */
export function readingOf(result: { ok: true } | { ok: false; problems: { path: string; sentence: string }[] }): Reading {
  if (result.ok) return 'read';
  if (result.problems.length === 0) throw new Error('refused without a reason');
  for (const { path, sentence } of result.problems) {
    if (path === '') throw new Error(`refused without a place: ${sentence}`);
    mustBeSentence(sentence);
  }
  return 'refused';
}

/** A parser that throws: only its own errors, with a sentence, and never 'internal'. */
export async function orRefusal(read: () => unknown): Promise<Reading> {
  try {
    await read();
    return 'read';
  } catch (error) {
    if (!(error instanceof HostError || error instanceof CommandError)) throw error;
    if (error instanceof HostError && error.code === 'internal') throw error;
    mustBeSentence(error.message);
    return 'refused';
  }
}
