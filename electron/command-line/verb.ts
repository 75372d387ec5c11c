import type { ParseArgsConfig } from 'node:util';

/** Flags and words of a command, read and known to be among those the verb has. */
export interface Flags {
  json: boolean;
  /** Words that are no flags: files, ids. */
  words: string[];
  /** Text of a flag, undefined where it was not given. */
  text(flag: string): string | undefined;
}

export interface Outcome {
  /** The one document that --json prints. */
  json: unknown;
  /** The same for reading; nothing is printed where it is empty. */
  text: string;
  /** One sentence for stderr, where the outcome is not a good one. */
  complaint?: string;
  exitCode?: number;
}

export interface Verb {
  name: string;
  usage: string;
  summary: string;
  /** Flags beside --json, which every verb has. */
  flags: NonNullable<ParseArgsConfig['options']>;
  /** Words that the verb takes, in order, as they are called in its usage. */
  words: readonly string[];
  run(flags: Flags): Outcome;
}
