import { createHash } from 'node:crypto';
import { z } from 'zod';
import { canonicalJson } from './canonical-json.ts';

export const VERDICT_FORMAT = 'kerfhand-verdict';
export const VERDICT_FORMAT_VERSION = 1;
/** Behind the name of a run file: `RUN.verdict` is the verdict on RUN. */
export const VERDICT_SUFFIX = '.verdict';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 small hex digits');
const mark = z.number().min(0).max(100);
/** Not the list of today: a verdict must stay readable when measures come and go. */
const measureId = z.string().regex(/^[a-z0-9-]{1,60}$/, 'must be the id of a measure');
const MOST_MEASURES = 100;
const written = z.string().trim().min(1).max(2000);

/** What an assessor puts their signature to. `marks` are those of the run; an overruled one stands beside them, with its reason. */
export const verdictPayloadSchema = z
  .strictObject({
    format: z.literal(VERDICT_FORMAT),
    formatVersion: z.literal(VERDICT_FORMAT_VERSION),
    /** Id in the records of the yard where it was given; a run file does not hold it. */
    runId: z.string().regex(/^[0-9a-f-]{36}$/, 'must be the id of a run'),
    /** SHA-256 of the run file's first line: what the second line of the file says. */
    runDigest: sha256,
    /** Hash of the drill in the run, the one that names its version everywhere. */
    drillDigest: sha256,
    score: mark,
    marks: z.array(z.strictObject({ measureId, mark })).min(1).max(MOST_MEASURES),
    overruled: z.array(z.strictObject({ measureId, mark, reason: written })).max(MOST_MEASURES),
    decision: z.enum(['competent', 'not-yet-competent']),
    reasons: written,
    /** 'Assessor 01'. */
    assessor: z.string().regex(/^[A-Za-z]+ \d{2,6}$/, 'must be a role and a number'),
    at: z.iso.datetime(),
  })
  .refine(({ marks }) => isUnique(marks), 'marks name a measure twice')
  .refine(({ overruled }) => isUnique(overruled), 'a measure is overruled twice')
  .refine(
    ({ marks, overruled }) => overruled.every((one) => marks.some((given) => given.measureId === one.measureId)),
    'a measure is overruled that the run has no mark for',
  );
export type VerdictPayload = z.infer<typeof verdictPayloadSchema>;

/** A verdict as it travels: one JSON document. The signature is over the UTF-8 of the payload's canonical JSON (RFC 8785). */
export const signedVerdictSchema = z.strictObject({
  payload: verdictPayloadSchema,
  keyId: sha256,
  signature: z.string().regex(/^[A-Za-z0-9+/]{86}==$/, 'must be 64 bytes as base64'),
});
export type SignedVerdict = z.infer<typeof signedVerdictSchema>;

/** Digest of a run file that a verdict is bound to: of its first line. */
export function runDigestOf(runText: string): string {
  const end = runText.indexOf('\n');
  return createHash('sha256')
    .update(end === -1 ? runText : runText.slice(0, end), 'utf8')
    .digest('hex');
}

/** The bytes that are signed. */
export function verdictBytes(payload: VerdictPayload): Buffer {
  return Buffer.from(canonicalJson(payload), 'utf8');
}

/** Marks as they stand after overruling, in the order of the run. */
export function marksAfterOverruling({ marks, overruled }: Pick<VerdictPayload, 'marks' | 'overruled'>): VerdictPayload['marks'] {
  return marks.map((given) => ({
    measureId: given.measureId,
    mark: overruled.find((one) => one.measureId === given.measureId)?.mark ?? given.mark,
  }));
}

function isUnique(entries: readonly { measureId: string }[]): boolean {
  return new Set(entries.map((entry) => entry.measureId)).size === entries.length;
}
