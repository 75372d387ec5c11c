import { decodeRunFile, scanJson } from '../../../sim-core/index.ts';
import { contentHash } from '../drill-text.ts';
import { encodeVerdict } from './sign-verdict.ts';
import { type PublicKey, signatureFits } from './signing-key.ts';
import {
  runDigestOf,
  type SignedVerdict,
  signedVerdictSchema,
  VERDICT_FORMAT,
  VERDICT_FORMAT_VERSION,
  verdictBytes,
} from './verdict.ts';

/** Longest verdict file that is read, in UTF-16 units; a full one with every measure overruled at length is below it. */
const VERDICT_TEXT_LIMIT = 256 * 1024;

export type VerdictRead =
  | { ok: true; verdict: SignedVerdict }
  /** newer: of a later format. damaged: no verdict file, or not a whole one. */
  | { ok: false; why: 'damaged' | 'newer'; sentence: string };

/** Reads a verdict file. Never throws: what is wrong is an answer. Says nothing about the signature yet. */
export function readVerdict(text: string): VerdictRead {
  const damaged = (sentence: string): VerdictRead => ({ ok: false, why: 'damaged', sentence });
  if (text.length > VERDICT_TEXT_LIMIT) return damaged(`A verdict file has at most ${VERDICT_TEXT_LIMIT} characters.`);
  const scan = scanJson(text);
  if (!scan.ok) return damaged(`The verdict file is damaged at ${scan.problem.path}: ${scan.problem.sentence}`);
  const payload = at(scan.value, 'payload');
  if (at(payload, 'format') !== VERDICT_FORMAT) return damaged('This is not a verdict file.');
  const version = at(payload, 'formatVersion');
  if (typeof version === 'number' && version > VERDICT_FORMAT_VERSION) {
    const sentence = `The verdict file has formatVersion ${version}, this program reads up to ${VERDICT_FORMAT_VERSION}.`;
    return { ok: false, why: 'newer', sentence };
  }
  const parsed = signedVerdictSchema.safeParse(scan.value);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    return damaged(`The verdict file is damaged at $${issue.path.map((key) => `.${String(key)}`).join('')}: ${issue.message}.`);
  }
  // To the byte, as the run file beside it: a file that was changed in what says nothing was changed all the same.
  if (text !== encodeVerdict(parsed.data)) return damaged('The verdict file is not byte for byte as it was written.');
  return { ok: true, verdict: parsed.data };
}

/**
 * fits: the key's owner signed this verdict, and it is about this very run.
 * other-key: signed with another key. forged: the signature does not fit the verdict. other-run: good, but about another run.
 */
export type VerdictCheck = 'fits' | 'other-key' | 'forged' | 'other-run';

/** Holds a verdict against a public key and the text of a run file. `reason` is one sentence. Does not cut the run again. */
export function checkVerdict(verdict: SignedVerdict, key: PublicKey, runText: string): { check: VerdictCheck; reason: string } {
  const { payload, keyId, signature } = verdict;
  if (!signatureFits(verdictBytes(payload), signature, key.key)) {
    return keyId === key.keyId
      ? { check: 'forged', reason: 'The signature does not fit the verdict: one of the two was changed after signing.' }
      : {
          check: 'other-key',
          reason: `The verdict was signed with key ${keyId.slice(0, 16)}, this is key ${key.keyId.slice(0, 16)}.`,
        };
  }
  if (keyId !== key.keyId) {
    return { check: 'forged', reason: 'The verdict names another key than the one that signed it.' };
  }
  const other = (what: string) => ({
    check: 'other-run' as const,
    reason: `The signature is good, but the verdict is about another run: ${what}.`,
  });
  if (runDigestOf(runText) !== payload.runDigest) return other('its digest is not that of this file');
  const fits = { check: 'fits' as const, reason: `Signed by ${payload.assessor} at ${payload.at}: ${payload.decision}.` };
  const run = decodeRunFile(runText);
  // The digest binds a run of a later format too; only what stands in it cannot be compared here.
  if (!run.ok) return run.why === 'newer' ? fits : other('this is no run file that can be read');
  if (contentHash(run.run.drillText) !== payload.drillDigest) return other('it was cut on another version of the drill');
  const marks = run.run.score?.measures ?? [];
  const same =
    run.run.score?.score === payload.score &&
    marks.length === payload.marks.length &&
    payload.marks.every((given, index) => given.measureId === marks[index].id && given.mark === marks[index].mark);
  if (!same) return other('its marks are not those of this file');
  return fits;
}

function at(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string, unknown>)[key]
    : undefined;
}
