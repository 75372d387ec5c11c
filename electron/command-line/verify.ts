import { type Verdict, type Verification, verifyRunFile } from '../../sim-core/index.ts';
import { NotTextError, readTextFile } from './read-file.ts';
import type { Verb } from './verb.ts';

const EXIT_CODES: Record<Verdict, number> = { same: 0, different: 3, 'other-core': 4, damaged: 5 };

export const verifyVerb: Verb = {
  name: 'verify',
  usage: 'verify RUN [--json]',
  summary:
    'Says whether a run file is whole and comes out the same when cut again: exit 0 same, 3 different, 4 other-core, 5 damaged.',
  flags: {},
  words: ['RUN'],
  run(flags) {
    const { verdict, reason } = verify(flags.words[0]);
    const complaint = verdict === 'same' ? undefined : reason;
    return { json: { verdict, reason }, text: verdict, complaint, exitCode: EXIT_CODES[verdict] };
  },
};

function verify(file: string): Verification {
  try {
    return verifyRunFile(readTextFile(file));
  } catch (error) {
    if (error instanceof NotTextError) return { verdict: 'damaged', reason: error.message };
    throw error;
  }
}
