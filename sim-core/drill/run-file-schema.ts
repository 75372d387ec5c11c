import { z } from 'zod';
import { diagnosisSchema } from './diagnosis.ts';
import { handScaleSchema } from './hand-scale.ts';
import type { FileFormat, Migration } from './parse-versioned-file.ts';
import { rigChoicesSchema } from './rig-choices.ts';

export const RUN_FORMAT = 'kerfhand-run';

/** The newest version. Older files are brought up to it by the named steps below. */
export const RUN_FORMAT_VERSION = 3;
/**
 * A run whose hand was not measured is still written as this version, byte for byte as before there was any measuring:
 * signatures over runs that were kept cover those bytes.
 */
export const RUN_FORMAT_VERSION_UNMEASURED = 2;

/** What moved the torch. */
export const HAND_KINDS = ['mouse', 'keyboard', 'gamepad', 'pen', 'script'] as const;

const shortText = z.string().min(1).max(200);
const digestHex = z.string().regex(/^[0-9a-f]{16}$/, 'must be 16 small hex digits');
const base64 = z.string().regex(/^[A-Za-z0-9+/]*={0,2}$/, 'must be base64 text');

/** Marks as they were given when the run was made. Its own core wrote them; another one keeps what it does not know. */
const keptScoreSchema = z.looseObject({
  score: z.number().min(0).max(100),
  passed: z.boolean(),
  measures: z.array(z.looseObject({ id: shortText, mark: z.number(), weight: z.number() })).max(100),
});

/** Line 1 of a run file. The drill inside is read by its own format, which may be an older one. */
export const runFileSchema = z.strictObject({
  format: z.literal(RUN_FORMAT),
  formatVersion: z.literal(RUN_FORMAT_VERSION),
  /** Name of the physics that made the run. */
  coreVersion: shortText,
  drill: z.record(z.string(), z.unknown()),
  seed: z.number().int().min(0).max(4294967295),
  hand: z.strictObject({ kind: z.enum(HAND_KINDS), name: shortText }),
  /** What was chosen in the rig check; null where the rig stood ready. */
  choices: rigChoicesSchema.nullable(),
  /** How the hand was measured; null where it was not. */
  handScale: handScaleSchema.nullable(),
  /** What was said to be wrong with the rig; null where nothing was. */
  diagnosis: diagnosisSchema.nullable(),
  /** False where the run broke off: then there are no digests, score and trace. */
  finished: z.boolean(),
  tickCount: z.number().int().min(0).max(1_000_000),
  /** `encodeHandLog` of every tick. */
  inputs: base64,
  /** State digest at every full second. */
  digests: z.array(digestHex).max(5000),
  finalDigest: digestHex.nullable(),
  /** Every eighth sample of each figure, little-endian Float32, one column after the other in the order of `fields`. */
  trace: z
    .strictObject({ hz: z.number().min(1).max(240), fields: z.array(shortText).min(1).max(64), columns: base64 })
    .nullable(),
  score: keptScoreSchema.nullable(),
});

export type RunFileHead = z.infer<typeof runFileSchema>;
export type HandKind = (typeof HAND_KINDS)[number];
export type KeptScore = z.infer<typeof keptScoreSchema>;

/**
 * The way up from every older version, one named step each, never edited once it has shipped. Version 1 knew no rig check:
 * every rig stood ready. Version 2 knew no measured hand.
 */
export const RUN_MIGRATIONS: readonly Migration[] = [
  { from: 1, name: 'rig-stood-ready', apply: (file) => ({ ...file, choices: null, diagnosis: null }) },
  { from: 2, name: 'hand-not-measured', apply: (file) => ({ ...file, handScale: null }) },
];

export const runFormat: FileFormat<RunFileHead> = {
  format: RUN_FORMAT,
  called: 'a run file',
  version: RUN_FORMAT_VERSION,
  schema: runFileSchema,
  migrations: RUN_MIGRATIONS,
};
