import { createHash } from 'node:crypto';
import { z } from 'zod';
import { decodeRunFile, RUN_TEXT_LIMIT, scanJson } from '../../../sim-core/index.ts';
import { contentHash, type DrillText, readDrillText } from '../drill-text.ts';
import { HostError } from '../host-error.ts';
import { canonicalJson } from './canonical-json.ts';

export const PACK_FORMAT = 'kerfhand-pack';
export const PACK_FORMAT_VERSION = 1;
/** Longest pack that is read, in UTF-16 units. */
export const PACK_TEXT_LIMIT = 24 * 1024 * 1024;
const MOST_DRILLS = 200;
const MOST_EARLIER = 200;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 small hex digits');

/** One drill of a pack, before its content is looked at: a drill that cannot be read does not keep the others out. */
const packedDrillSchema = z.strictObject({
  /** SHA-256 of the drill's minified JSON: the hash that names this version in every yard. */
  sha256,
  /** Hashes of the versions that this one took the place of, newest first: how a newer version is told from a clash of ids. */
  earlier: z.array(sha256).max(MOST_EARLIER),
  drill: z.record(z.string(), z.unknown()),
  /** Text of the run file that shows how it is cut; null where there is none. */
  demonstration: z.string().max(RUN_TEXT_LIMIT).nullable(),
});

/**
 * A drill pack: one JSON document in UTF-8, of any layout. `sha256` is the SHA-256 of the canonical JSON (RFC 8785) of the whole
 * document without that field.
 */
export const packSchema = z.strictObject({
  format: z.literal(PACK_FORMAT),
  formatVersion: z.literal(PACK_FORMAT_VERSION),
  title: z.string().trim().min(1).max(120),
  /** What it is good for; may be empty. */
  about: z.string().trim().max(1200),
  madeAt: z.iso.datetime(),
  drills: z.array(packedDrillSchema).min(1).max(MOST_DRILLS),
  sha256,
});

/** A drill of a pack that was found good, or why it was not. */
export type PackedDrill =
  | { ok: true; read: DrillText; earlier: string[]; demonstration: string | null }
  | { ok: false; name: string; reason: string };

export interface DrillPack {
  title: string;
  about: string;
  madeAt: string;
  drills: PackedDrill[];
}

export interface DrillToPack {
  text: string;
  /** Newest first; the pack keeps the newest 200. */
  earlier: readonly string[];
  /** Text of a run file cut on exactly this version. */
  demonstration: string | null;
}

/**
 * The text of a pack.
 * @throws HostError 'bad-request' with no or too many drills or two of one id, 'bad-file' where a drill or demonstration is not good,
 * 'too-large' where nobody could read the pack
 */
export function encodePack(about: { title: string; about: string; madeAt: string }, drills: readonly DrillToPack[]): string {
  if (drills.length === 0) throw new HostError('bad-request', 'A pack needs at least one drill.');
  if (drills.length > MOST_DRILLS) throw new HostError('bad-request', `A pack holds at most ${MOST_DRILLS} drills.`);
  const seen = new Set<string>();
  const packed = drills.map(({ text, earlier, demonstration }) => {
    const { drill, hash } = readDrillText(text);
    if (seen.has(drill.id)) throw new HostError('bad-request', `The drill ${drill.id} stands twice in this pack.`);
    seen.add(drill.id);
    const problem = demonstration === null ? null : demonstrationProblem(demonstration, hash);
    if (problem) throw new HostError('bad-file', `The demonstration of ${drill.id} cannot be packed: ${problem}`);
    const before = [...new Set(earlier)].filter((one) => one !== hash).slice(0, MOST_EARLIER);
    return { sha256: hash, earlier: before, drill: JSON.parse(text) as object, demonstration };
  });
  const body = { format: PACK_FORMAT, formatVersion: PACK_FORMAT_VERSION, ...about, drills: packed };
  const whole = packSchema.safeParse({ ...body, sha256: digestOf(body) });
  if (!whole.success) throw new HostError('bad-request', `The pack cannot be written: ${firstIssue(whole.error)}`);
  const text = `${JSON.stringify(whole.data, null, 1)}\n`;
  if (text.length > PACK_TEXT_LIMIT) {
    throw new HostError(
      'too-large',
      `The pack would be ${text.length} characters long; at most ${PACK_TEXT_LIMIT} can be read again.`,
    );
  }
  return text;
}

/**
 * Reads a pack. A drill in it that is not good is told as such and does not hinder the others.
 * @throws HostError 'too-large', 'newer-version', or 'bad-file' where the file is no pack or is not as it was written
 */
export function readPack(text: string): DrillPack {
  if (text.length > PACK_TEXT_LIMIT) throw new HostError('too-large', `A drill pack has at most ${PACK_TEXT_LIMIT} characters.`);
  const scan = scanJson(text);
  if (!scan.ok) throw new HostError('bad-file', `The pack is damaged at ${scan.problem.path}: ${scan.problem.sentence}`);
  const { value } = scan;
  if (typeof value !== 'object' || value === null || !('format' in value) || value.format !== PACK_FORMAT) {
    throw new HostError('bad-file', `This is not a drill pack: its format is not "${PACK_FORMAT}".`);
  }
  if ('formatVersion' in value && typeof value.formatVersion === 'number' && value.formatVersion > PACK_FORMAT_VERSION) {
    throw new HostError(
      'newer-version',
      `The pack has formatVersion ${value.formatVersion}, this program reads up to ${PACK_FORMAT_VERSION}; a newer program is needed.`,
    );
  }
  const parsed = packSchema.safeParse(value);
  if (!parsed.success) throw new HostError('bad-file', `The pack is not as it must be: ${firstIssue(parsed.error)}`);
  // The digest is of what the file says, not of what the schema makes of it.
  const { sha256: stated, ...body } = value as Record<string, unknown>;
  if (digestOf(body) !== stated) throw new HostError('bad-file', 'The pack is not as it was written: its digest does not fit.');
  const { title, about, madeAt, drills } = parsed.data;
  return { title, about, madeAt, drills: uniqueIds(drills.map(readPacked)) };
}

function readPacked({ sha256: stated, earlier, drill, demonstration }: z.infer<typeof packedDrillSchema>): PackedDrill {
  const name = typeof drill.id === 'string' ? drill.id.slice(0, 80) : 'a drill without an id';
  const text = `${JSON.stringify(drill, null, 2)}\n`;
  if (contentHash(text) !== stated) return { ok: false, name, reason: 'Its digest is not that of its content.' };
  try {
    const read = readDrillText(text);
    const problem = demonstration === null ? null : demonstrationProblem(demonstration, read.hash);
    return problem ? { ok: false, name, reason: problem } : { ok: true, read, earlier, demonstration };
  } catch (error) {
    if (error instanceof HostError) return { ok: false, name, reason: error.message };
    throw error;
  }
}

function uniqueIds(drills: PackedDrill[]): PackedDrill[] {
  const seen = new Set<string>();
  return drills.map((drill) => {
    if (!drill.ok) return drill;
    const { id } = drill.read.drill;
    if (seen.has(id)) return { ok: false, name: id, reason: 'A drill of this id stands earlier in the pack.' };
    seen.add(id);
    return drill;
  });
}

/** What keeps a run from being the demonstration of that drill version; null = nothing. */
function demonstrationProblem(text: string, drillHash: string): string | null {
  const result = decodeRunFile(text);
  if (!result.ok) return `The demonstration is no good run file: ${result.problems[0].sentence}`;
  if (contentHash(result.run.drillText) !== drillHash) return 'The demonstration was cut on another version of the drill.';
  return result.run.finished ? null : 'The demonstration was not finished.';
}

function digestOf(body: object): string {
  return createHash('sha256').update(canonicalJson(body), 'utf8').digest('hex');
}

function firstIssue(error: z.ZodError): string {
  const [issue] = error.issues;
  const place = issue.path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
  return `$${place}: ${issue.message}.`;
}
