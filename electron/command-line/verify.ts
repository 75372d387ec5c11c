import { type Verdict, type Verification, verifyRunFile } from '../../sim-core/index.ts';
import { HostError } from '../host/host-error.ts';
import { checkVerdict, readVerdict } from '../host/papers/check-verdict.ts';
import { readPublicKey } from '../host/papers/signing-key.ts';
import { type SignedVerdict, VERDICT_SUFFIX } from '../host/papers/verdict.ts';
import { CommandError, UsageError } from './command-error.ts';
import { NotTextError, readTextFile } from './read-file.ts';
import type { Verb } from './verb.ts';

const EXIT_CODES: Record<Verdict, number> = { same: 0, different: 3, 'other-core': 4, damaged: 5 };

/** What was signed, shown only where the signature is good and about this run. */
type Signed = Pick<SignedVerdict['payload'], 'assessor' | 'decision' | 'at' | 'reasons' | 'overruled'> & { keyId: string };
type SignedVerification = Verification & { signature?: 'good' | 'does-not-fit' | 'unreadable'; signed?: Signed };

export const verifyVerb: Verb = {
  name: 'verify',
  usage: 'verify RUN [--public-key FILE [--verdict FILE]] [--json]',
  summary:
    'Says whether a run file is whole and comes out the same when cut again: exit 0 same, 3 different, 4 other-core, 5 damaged. With a public key also whether the signed verdict beside it (RUN.verdict) is by its owner and about this run; if not, it is different.',
  flags: { 'public-key': { type: 'string' }, verdict: { type: 'string' } },
  words: ['RUN'],
  run(flags) {
    const [file] = flags.words;
    const keyFile = flags.text('public-key');
    const verdictFile = flags.text('verdict');
    if (verdictFile !== undefined && keyFile === undefined) {
      throw new UsageError('--verdict is of use only with --public-key: without a key a signature says nothing.');
    }
    const outcome: SignedVerification =
      keyFile === undefined ? verify(file) : verifySigned(file, keyFile, verdictFile ?? file + VERDICT_SUFFIX);
    const { verdict, reason, signed } = outcome;
    const complaint = verdict === 'same' ? undefined : reason;
    const text = signed ? `${verdict}\n${signedText(signed)}` : verdict;
    return { json: outcome, text, complaint, exitCode: EXIT_CODES[verdict] };
  },
};

function verify(file: string): Verification {
  return ofText(file, verifyRunFile, (reason) => ({ verdict: 'damaged', reason }));
}

/** Bytes that are no text are an answer, not a failure: they are what damage leaves behind. */
function ofText<T>(file: string, use: (text: string) => T, damaged: (reason: string) => T): T {
  try {
    return use(readTextFile(file));
  } catch (error) {
    if (error instanceof NotTextError) return damaged(error.message);
    throw error;
  }
}

function verifySigned(file: string, keyFile: string, verdictFile: string): SignedVerification {
  const key = publicKeyIn(keyFile);
  const read = ofText(verdictFile, readVerdict, (sentence) => ({ ok: false, why: 'damaged', sentence }) as const);
  const run = verify(file);
  // What is wrong with the run itself comes first: a verdict on a damaged file is not worth reading.
  if (run.verdict === 'damaged') return run;
  if (!read.ok) {
    return {
      verdict: read.why === 'newer' ? 'other-core' : 'damaged',
      reason: `${verdictFile}: ${read.sentence}`,
      signature: 'unreadable',
    };
  }
  const { check, reason } = checkVerdict(read.verdict, key, readTextFile(file));
  const { assessor, decision, at, reasons, overruled } = read.verdict.payload;
  switch (check) {
    case 'fits': {
      const signed = { assessor, decision, at, reasons, overruled, keyId: key.keyId };
      return { verdict: run.verdict, reason: `${reason} ${run.reason}`, signature: 'good', signed };
    }
    case 'other-run':
      return { verdict: 'different', reason, signature: 'good' };
    case 'forged':
    case 'other-key':
      return { verdict: 'different', reason, signature: 'does-not-fit' };
  }
}

function publicKeyIn(file: string) {
  const pem = readTextFile(file);
  try {
    return readPublicKey(pem);
  } catch (error) {
    if (error instanceof HostError) throw new CommandError(`${file}: ${error.message}`);
    throw error;
  }
}

function signedText({ assessor, decision, at, overruled }: Signed): string {
  const lines = [`${assessor} signed at ${at}: ${decision}`];
  for (const { measureId, mark, reason } of overruled) lines.push(`  ${measureId} overruled to ${mark}: ${reason}`);
  return lines.join('\n');
}
